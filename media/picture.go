package media

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"

	"github.com/disintegration/imaging"
)

// A smallPicture is a preview ready to be stored.
type smallPicture struct {
	side          Side
	width, height int
	jpeg          []byte
}

// errUndecodable is in the chain of errors that are the picture's own fault.
var errUndecodable = errors.New("its pixels cannot be decoded")

// previewQuality of JPEG: foliage shows no blocks at 1600 pixels, and a picture
// has about 400 kB.
const previewQuality = 82

// shrink makes both small pictures: the large one from the original, which is
// decoded once, and the small one from the large one. It resizes first and turns
// upright after, which needs half the memory. The facts say that the picture is
// small enough to decode.
func shrink(content io.ReadSeeker, facts Facts) ([]smallPicture, error) {
	colour, err := colourOf(content, facts.Type)
	if err != nil {
		return nil, err
	}
	full, err := decode(content, facts.Type)
	if err != nil {
		return nil, err
	}
	if photograph, ok := full.(*image.YCbCr); ok {
		halve(photograph, Large)
	}
	large := upright(fit(full, Large, imaging.CatmullRom), facts.Orientation)
	small := fit(large, Small, imaging.Lanczos)
	var out []smallPicture
	for _, p := range []struct {
		side Side
		img  *image.NRGBA
	}{{Large, large}, {Small, small}} {
		encoded, err := encode(p.img, colour)
		if err != nil {
			return nil, err
		}
		out = append(out, smallPicture{p.side, p.img.Rect.Dx(), p.img.Rect.Dy(), encoded})
	}
	return out, nil
}

// colourOf gives the segments that say what the numbers of a JPEG's colours
// mean: without them the wide colours of a phone's picture turn dull.
func colourOf(content io.ReadSeeker, kind Type) ([]byte, error) {
	if kind != JPEG {
		return nil, nil
	}
	head, err := readJPEGHead(content)
	if err != nil {
		return nil, errors.Join(errUndecodable, err)
	}
	_, err = content.Seek(0, io.SeekStart)
	return head.colourSegments(), err
}

// decode decodes a picture whose header has been checked. A panic of a decoder
// is an error: decoders run in this goroutine.
func decode(content io.Reader, kind Type) (img image.Image, err error) {
	defer func() {
		if trouble := recover(); trouble != nil {
			img, err = nil, fmt.Errorf("%w: %v", errUndecodable, trouble)
		}
	}()
	if kind == PNG {
		img, err = png.Decode(content)
	} else {
		img, err = jpeg.Decode(content)
	}
	if disk := (*fs.PathError)(nil); errors.As(err, &disk) {
		return nil, err
	}
	if err != nil {
		return nil, errors.Join(errUndecodable, err)
	}
	return plain(img), nil
}

// plain gives a picture of a type that imaging reads without touching anything
// but its own pixels, since a panic in imaging's goroutines could not be caught.
// Others, palettes and CMYK, are drawn into one here.
func plain(img image.Image) image.Image {
	switch img := img.(type) {
	case *image.YCbCr, *image.Gray, *image.Gray16, *image.RGBA, *image.NRGBA, *image.RGBA64, *image.NRGBA64:
		return img
	}
	out := image.NewRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out
}

// onWhite fills what is clear in a picture, since JPEG knows no clearness.
func onWhite(img *image.NRGBA) *image.RGBA {
	if img.Opaque() { // then NRGBA and RGBA are the same bytes
		return &image.RGBA{Pix: img.Pix, Stride: img.Stride, Rect: img.Rect}
	}
	out := image.NewRGBA(img.Rect)
	draw.Draw(out, out.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(out, out.Rect, img, img.Rect.Min, draw.Over)
	return out
}

// fit shrinks a picture to a longest side; a smaller one keeps its size.
func fit(img image.Image, side Side, filter imaging.ResampleFilter) *image.NRGBA {
	width, height := img.Bounds().Dx(), img.Bounds().Dy()
	longest := max(width, height)
	if longest <= int(side) {
		return imaging.Clone(img)
	}
	scaled := func(n int) int { return max(1, (n*int(side)+longest/2)/longest) }
	return imaging.Resize(img, scaled(width), scaled(height), filter)
}

// turned reports whether an orientation swaps width and height.
func turned(orientation int) bool { return orientation >= 5 }

// upright undoes an EXIF orientation (Exif 2.32 4.6.4, tag 0112): each case
// names where the stored first row and first column are when it is seen.
func upright(img *image.NRGBA, orientation int) *image.NRGBA {
	switch orientation {
	case 2: // top, right
		return imaging.FlipH(img)
	case 3: // bottom, right
		return imaging.Rotate180(img)
	case 4: // bottom, left
		return imaging.FlipV(img)
	case 5: // left, top
		return imaging.Transpose(img)
	case 6: // right, top
		return imaging.Rotate270(img)
	case 7: // right, bottom
		return imaging.Transverse(img)
	case 8: // left, bottom
		return imaging.Rotate90(img)
	}
	return img
}

// encode writes a JPEG without any metadata but the colour segments.
func encode(img *image.NRGBA, colour []byte) ([]byte, error) {
	var out bytes.Buffer
	// image/jpeg has a quick path for RGBA and none for NRGBA.
	if err := jpeg.Encode(&out, onWhite(img), &jpeg.Options{Quality: previewQuality}); err != nil {
		return nil, err
	}
	return withColour(out.Bytes(), colour), nil
}

// withColour puts segments behind a JPEG's start.
func withColour(picture, segments []byte) []byte {
	const start = 2
	out := make([]byte, 0, len(picture)+len(segments))
	out = append(append(out, picture[:start]...), segments...)
	return append(out, picture[start:]...)
}
