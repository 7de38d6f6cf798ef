package unsent

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
)

const folderMode = 0o700

// Spool takes a file that comes as a stream: it lies in a folder until it was
// taken, and no longer.
func (t Taker) Spool(ctx context.Context, folder string, from io.Reader, terms Terms) (summary Summary, err error) {
	if err := os.MkdirAll(folder, folderMode); err != nil {
		return summary, fmt.Errorf("the file cannot be laid down: %w", err)
	}
	lying, err := os.CreateTemp(folder, "saved-*.zip")
	if err != nil {
		return summary, fmt.Errorf("the file cannot be laid down: %w", err)
	}
	defer func() { err = errors.Join(err, lying.Close(), os.Remove(lying.Name())) }()
	size, err := io.Copy(lying, from)
	if err != nil {
		return summary, err
	}
	return t.Take(ctx, lying, size, terms)
}
