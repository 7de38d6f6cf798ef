package media

import (
	"image"
	"math/rand/v2"
	"testing"
)

func TestHalvingGivesTheMeanOfFour(t *testing.T) {
	ratios := map[string]image.YCbCrSubsampleRatio{
		"4:4:4": image.YCbCrSubsampleRatio444, "4:2:2": image.YCbCrSubsampleRatio422,
		"4:2:0": image.YCbCrSubsampleRatio420, "4:4:0": image.YCbCrSubsampleRatio440,
	}
	for name, ratio := range ratios {
		for _, size := range []image.Point{{640, 480}, {641, 480}, {640, 481}, {643, 645}, {642, 646}, {1281, 700}} {
			t.Run(name+" "+size.String(), func(t *testing.T) {
				img := randomYCbCr(size, ratio)
				original := randomYCbCr(size, ratio)
				halve(img, Small)
				if got, want := img.Rect.Max, halvedSize(size); got != want {
					t.Fatalf("size %v, want %v", got, want)
				}
				if size.X < 4*int(Small) {
					checkMeans(t, img, original)
				}
				_ = img.At(img.Rect.Max.X-1, img.Rect.Max.Y-1) // panics where a chroma plane is too short
			})
		}
	}
}

func halvedSize(p image.Point) image.Point {
	for max(p.X, p.Y) >= 2*int(Small) {
		p = p.Div(2)
	}
	return p
}

func randomYCbCr(size image.Point, ratio image.YCbCrSubsampleRatio) *image.YCbCr {
	random := rand.New(rand.NewPCG(5, 6))
	img := image.NewYCbCr(image.Rectangle{Max: size}, ratio)
	for _, plane := range [][]uint8{img.Y, img.Cb, img.Cr} {
		for i := range plane {
			plane[i] = uint8(random.Uint32())
		}
	}
	return img
}

func checkMeans(t *testing.T, halved, original *image.YCbCr) {
	t.Helper()
	for y := range halved.Rect.Dy() {
		for x := range halved.Rect.Dx() {
			want := (2 + sum(func(p image.Point) uint8 { return original.Y[original.YOffset(p.X, p.Y)] }, x, y)) / 4
			if got := int(halved.Y[halved.YOffset(x, y)]); got != want {
				t.Fatalf("light at %d, %d is %d, want %d", x, y, got, want)
			}
		}
	}
	cx, cy := halved.Rect.Dx()/4, halved.Rect.Dy()/4 // a chroma sample inside the picture
	want := (2 + sum(func(p image.Point) uint8 { return original.Cb[p.Y*original.CStride+p.X] }, cx, cy)) / 4
	if got := int(halved.Cb[cy*halved.CStride+cx]); got != want {
		t.Fatalf("chroma is %d, want %d", got, want)
	}
}

// sum adds the four samples that become one.
func sum(at func(image.Point) uint8, x, y int) int {
	total := 0
	for _, d := range []image.Point{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
		total += int(at(image.Pt(2*x, 2*y).Add(d)))
	}
	return total
}

func TestASmallPictureIsNotHalved(t *testing.T) {
	img := randomYCbCr(image.Pt(639, 10), image.YCbCrSubsampleRatio420)
	halve(img, Small)
	if img.Rect.Max != image.Pt(639, 10) {
		t.Errorf("size %v", img.Rect.Max)
	}
}
