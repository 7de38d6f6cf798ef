// Package media keeps the photographs and voice memos of gardens: it takes them
// in piece by piece, proves them whole, reads what they say about time and
// place, makes the two small pictures that screens show, and hands bytes back.
//
// A medium is named by the SHA-256 of its bytes (Name), per garden: bytes that
// another garden holds are invisible until they have been sent whole here. The
// bytes are files in the Store's folder; everything known about them (Entry) is
// in the Index, which whoever opens the Store provides.
//
//	{dir}/{garden}/{first two digits}/{name}            an original, proven whole
//	{dir}/{garden}/{first two digits}/{name}.part       what has arrived of one
//	{dir}/{garden}/{first two digits}/{name}.1600.jpg   a small picture; 320 too
//
// Every file that counts got there by write, fsync, rename, fsync of the folder,
// in that order, before the call that made it returned.
//
// Nothing in a file is believed: its type comes from its bytes (sniff.go), its
// EXIF block is walked and mended by mendTIFF before any library sees it
// (tiff.go), and its dimensions and what decoding would cost are known from its
// header before a pixel is decoded (jpeg.go, png.go, picture.go).
//
// Start in store.go; upload.go and putpreview.go take media in, original.go and
// preview.go give them out, exif.go reads the facts.
//
// Small pictures are files beside their originals rather than values in the
// index, because large values that are deleted or replaced are slow to be given
// back there; the index holds their hashes, so damage to them is seen too.
package media
