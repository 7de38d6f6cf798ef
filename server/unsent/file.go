package unsent

import (
	"archive/zip"
	"bufio"
	"encoding/json"
	"errors"
	"io"
	"math"
	"strings"

	"haulm/media"
	"haulm/server/refusal"
)

const (
	// mostDirectoryBytes bounds what is read to list a file's entries, and so the
	// memory that a list of millions would take: a thousand photos need 400 kB.
	mostDirectoryBytes = 4 << 20
	// mostManifestBytes holds some ten thousand photos.
	mostManifestBytes = 2 << 20
	// mostLinesBytes bounds changes and refusals together once unpacked: sixty
	// thousand notes of a paragraph.
	mostLinesBytes = 64 << 20
	// mostLineBytes is far above a change's largest size.
	mostLineBytes = 256 << 10
)

// A file is an opened saved file, its entries sorted by what they are.
type file struct {
	manifest Manifest
	changes  *zip.File // nil where there are none
	refused  *zip.File
	media    []medium // previews before originals, as phones send them
	strange  []string // names that mean nothing here, or come a second time
}

// A medium is an entry with bytes of a photo or memo.
type medium struct {
	entry *zip.File
	name  media.Name
	side  media.Side // 0 for the original
}

// open reads a file's list and manifest. The error is a *refusal.Refusal that
// says why this is no file to take.
func open(from io.ReaderAt, size int64) (*file, error) {
	list := &metered{from: from, left: mostDirectoryBytes}
	archive, err := zip.NewReader(list, size)
	if err != nil {
		return nil, refusal.New(refusal.Unprocessable, "not_a_saved_file",
			"this is not a file saved by Haulm, or it did not arrive whole: save it on the phone again")
	}
	list.left = math.MaxInt64
	f, names := &file{}, map[string]*zip.File{}
	for _, entry := range archive.File {
		if _, twice := names[entry.Name]; twice {
			f.strange = append(f.strange, entry.Name)
			continue
		}
		names[entry.Name] = entry
		f.place(entry)
	}
	if err := f.readManifest(names[manifestName]); err != nil {
		return nil, err
	}
	f.changes, f.refused = names[changesName], names[refusedName]
	f.previewsFirst()
	return f, nil
}

// place sorts one entry. Whatever is not named exactly as the format says, paths
// that lead elsewhere among it, is strange.
func (f *file) place(entry *zip.File) {
	switch entry.Name {
	case manifestName, changesName, refusedName:
		return
	}
	if found, ok := mediumOf(entry); ok {
		f.media = append(f.media, found)
		return
	}
	f.strange = append(f.strange, entry.Name)
}

func mediumOf(entry *zip.File) (medium, bool) {
	path, within := strings.CutPrefix(entry.Name, mediaFolder)
	sha, version, _ := strings.Cut(path, "/")
	version, _, _ = strings.Cut(version, ".")
	name, err := media.ParseName(sha)
	if !within || err != nil {
		return medium{}, false
	}
	if version == originalVersion {
		return medium{entry: entry, name: name}, true
	}
	side, err := media.ParseSide(version)
	return medium{entry: entry, name: name, side: side}, err == nil
}

func (f *file) previewsFirst() {
	var sorted []medium
	for _, preview := range []bool{true, false} {
		for _, m := range f.media {
			if (m.side != 0) == preview {
				sorted = append(sorted, m)
			}
		}
	}
	f.media = sorted
}

func (f *file) readManifest(entry *zip.File) error {
	if entry == nil {
		return refusal.New(refusal.Unprocessable, "not_a_saved_file", "this zip has no %s, so it is not a file saved by Haulm", manifestName)
	}
	content, err := entry.Open()
	if err != nil {
		return badManifest()
	}
	defer content.Close()
	text, err := io.ReadAll(io.LimitReader(content, mostManifestBytes+1))
	if err != nil || len(text) > mostManifestBytes || json.Unmarshal(text, &f.manifest) != nil {
		return badManifest()
	}
	return f.manifest.check()
}

func badManifest() error {
	return refusal.New(refusal.Unprocessable, "bad_manifest", "%s in this file cannot be read: save the file on the phone again", manifestName)
}

func (m Manifest) check() error {
	switch {
	case m.Format != Format:
		return refusal.New(refusal.Unprocessable, "not_a_saved_file", "this file is of the format %q, not %s", shorten(m.Format), Format)
	case m.Version > Version:
		return refusal.New(refusal.Unprocessable, "newer_file",
			"this file is of version %d of %s, and this haulm reads version %d: update haulm, then take the file again", m.Version, Format, Version)
	case m.Version < 1:
		return badManifest()
	}
	return nil
}

// originalBytes is the size that the manifest gives an original; 0 when it does
// not speak of it.
func (f *file) originalBytes(name media.Name) int64 {
	for _, photo := range f.manifest.Photos {
		if photo.Sha256 == name.String() {
			return photo.Bytes
		}
	}
	return 0
}

// metered lets so much be read of the list at a file's end; entries are read
// freely once that is done.
type metered struct {
	from io.ReaderAt
	left int64
}

var errListTooLong = errors.New("the list of entries is too long")

func (m *metered) ReadAt(into []byte, at int64) (int, error) {
	n, err := m.from.ReadAt(into, at)
	if m.left -= int64(n); m.left < 0 {
		return 0, errListTooLong
	}
	return n, err
}

// lines gives an entry's lines to each until it says stop. A line that is too
// long is given as nil, and what follows is read on.
func lines(entry *zip.File, each func(number int, line []byte) error) error {
	content, err := entry.Open()
	if err != nil {
		return err
	}
	defer content.Close()
	reader := bufio.NewReaderSize(io.LimitReader(content, mostLinesBytes), mostLineBytes)
	for number := 1; ; number++ {
		line, err := reader.ReadSlice('\n')
		if len(line) == 0 && err != nil {
			return unlessEnd(err)
		}
		long := errors.Is(err, bufio.ErrBufferFull)
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = reader.ReadSlice('\n')
		}
		if long {
			line = nil
		}
		if err := each(number, line); err != nil {
			return err
		}
		if err != nil {
			return unlessEnd(err)
		}
	}
}

func unlessEnd(err error) error {
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}
