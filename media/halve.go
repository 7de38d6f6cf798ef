package media

import "image"

// halve shrinks a decoded JPEG to half its width and height, each pixel the mean
// of four, as often as it stays larger than side. It works within the picture's
// own memory: resizing a photograph in one step would need half as much again,
// and takes longer.
func halve(img *image.YCbCr, side Side) {
	for max(img.Rect.Dx(), img.Rect.Dy()) >= 2*int(side) && min(img.Rect.Dx(), img.Rect.Dy()) >= 2 {
		width, height := img.Rect.Dx(), img.Rect.Dy()
		across, down, known := subsampling(img.SubsampleRatio)
		if !known {
			return
		}
		chromaWidth, chromaHeight := (width+across-1)/across, (height+down-1)/down
		halvePlane(img.Y, img.YStride, width, height)
		halvePlane(img.Cb, img.CStride, chromaWidth, chromaHeight)
		halvePlane(img.Cr, img.CStride, chromaWidth, chromaHeight)
		img.Rect = image.Rect(0, 0, width/2, height/2)
	}
}

// subsampling says how many pixels across and down share a chroma sample.
func subsampling(ratio image.YCbCrSubsampleRatio) (across, down int, known bool) {
	switch ratio {
	case image.YCbCrSubsampleRatio444:
		return 1, 1, true
	case image.YCbCrSubsampleRatio422:
		return 2, 1, true
	case image.YCbCrSubsampleRatio420:
		return 2, 2, true
	case image.YCbCrSubsampleRatio440:
		return 1, 2, true
	}
	return 0, 0, false
}

// halvePlane writes the halved plane over the plane itself, with the same
// stride; no place is written before it has been read. An odd last column or row
// counts twice, so that a chroma plane never has fewer samples than its picture
// needs.
func halvePlane(plane []uint8, stride, width, height int) {
	for y := range (height + 1) / 2 {
		upper := plane[2*y*stride:][:width]
		lower := plane[min(2*y+1, height-1)*stride:][:width]
		halveRows(plane[y*stride:], upper, lower)
	}
}

func halveRows(into, upper, lower []uint8) {
	width := len(upper)
	lower = lower[:width]
	into = into[:(width+1)/2]
	for x := range width / 2 {
		a, b := upper[2*x:2*x+2], lower[2*x:2*x+2]
		into[x] = uint8((uint(a[0]) + uint(a[1]) + uint(b[0]) + uint(b[1]) + 2) / 4)
	}
	if width%2 == 1 {
		into[width/2] = uint8((uint(upper[width-1]) + uint(lower[width-1]) + 1) / 2)
	}
}
