// Package pwa carries the phone's app, as `npm run build` leaves it in dist: the
// shell, its scripts and styles, the fonts, the catalogue and the almanac, each
// with a .br and a .gz beside it where that makes it smaller.
package pwa

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
)

// ErrNotBuilt says that this binary was compiled before the app was.
var ErrNotBuilt = errors.New("the app for phones is not in this binary: run `make build`, " +
	"or `npm ci && npm run build` in the folder pwa, and compile again")

//go:embed all:dist
var built embed.FS

// Files is the app's files by their address without the leading slash, such as
// "index.html". The error is ErrNotBuilt when the app was not built.
func Files() (fs.FS, error) {
	dist, err := fs.Sub(built, "dist")
	if err != nil {
		return nil, fmt.Errorf("pwa: %w", err)
	}
	if _, err := fs.Stat(dist, "index.html"); err != nil {
		return nil, ErrNotBuilt
	}
	return dist, nil
}
