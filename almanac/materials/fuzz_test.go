package materials

import (
	"testing"

	"haulm/internal/promise"
)

func FuzzMulch(f *testing.F) {
	promise.Fuzz(f, Mulch, `{"outline":[[0,0],[4,0],[4,3],[0,3]],"minus":[[[1,1],[2,1],[2,2]]],"depthCm":5,"bagL":50,"material":"bark"}`,
		`{"areaM2":1e300,"depthCm":5}`, `{"outline":[[1e308,0],[4,0],[4,3]],"depthCm":5}`)
}

func FuzzSpacing(f *testing.F) {
	promise.Fuzz(f, Spacing, `{"areaM2":12,"spacingCm":35,"pattern":"triangular"}`, `{"areaM2":12,"spacingCm":1e-300,"pattern":"square"}`)
}

func FuzzBackfill(f *testing.F) {
	promise.Fuzz(f, Backfill, `{"holeWidthCm":60,"holeDepthCm":40,"ballL":10,"amendments":[{"material":"compost","share":0.2}]}`,
		`{"holeWidthCm":60,"holeDepthCm":40,"ballL":10,"amendments":[{"material":"compost","share":-1}]}`)
}

func FuzzLength(f *testing.F) {
	promise.Fuzz(f, Length, `{"feet":5,"inches":6,"nearestCm":5}`, `{"feet":1e308}`)
}

func FuzzHeightFromPhoto(f *testing.F) {
	promise.Fuzz(f, HeightFromPhoto, `{"caneCm":100,"caneTop":[100,500],"caneFoot":[100,1000],"plantTop":[400,100],"plantFoot":[400,1000],"caneDistanceM":3,"plantDistanceM":3.2}`,
		`{"caneCm":100,"caneTop":[0,0],"caneFoot":[0,0],"plantTop":[0,0],"plantFoot":[0,0]}`)
}
