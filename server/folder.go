package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"
	"time"

	"haulm/media"
	"haulm/server/household"
	"haulm/sync/journal"
)

// What lies in the data folder.
const (
	journalFolder = "journal"
	mediaFolder   = "media"
	tlsFolder     = "tls"
	arriveFolder  = "arriving" // saved files, until they are taken in
	socketFile    = "haulm.sock"

	folderMode = 0o700
	socketMode = 0o600
)

// A folder is an open data folder: the journal, who belongs to its gardens, and
// their photos. One process at a time has it.
type folder struct {
	journal   *journal.Journal
	household *household.Household
	media     *media.Store
	arriving  string // the folder of saved files that are being taken in
}

// openKept opens a data folder that is there already. One that is not, or
// another folder named by mistake, is left as it is: a check that makes an empty
// folder finds nothing damaged in it.
func openKept(ctx context.Context, dir string, now func() time.Time, logger *slog.Logger) (*folder, error) {
	files, err := os.ReadDir(filepath.Join(dir, journalFolder))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("the data folder %s cannot be read: %w", dir, err)
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s holds no gardens: name the folder that haulm serve keeps them in with --data", dir)
	}
	return openFolder(ctx, dir, now, logger)
}

func openFolder(ctx context.Context, dir string, now func() time.Time, logger *slog.Logger) (*folder, error) {
	if err := os.MkdirAll(dir, folderMode); err != nil {
		return nil, fmt.Errorf("the data folder %s cannot be made: %w; choose another with --data", dir, err)
	}
	kept, err := journal.Open(ctx, journal.Options{Dir: filepath.Join(dir, journalFolder), Now: now, Logger: logger})
	if err != nil {
		return nil, fmt.Errorf("the data folder %s cannot be opened: %w; another haulm may be using it", dir, err)
	}
	store, err := media.Open(media.Options{Dir: filepath.Join(dir, mediaFolder), Index: mediaIndex{kept}})
	if err != nil {
		kept.Close()
		return nil, fmt.Errorf("the photos under %s cannot be opened: %w", dir, err)
	}
	arriving := filepath.Join(dir, arriveFolder)
	if err := os.RemoveAll(arriving); err != nil { // what a crash left of one
		kept.Close()
		return nil, fmt.Errorf("the folder %s cannot be cleared: %w", arriving, err)
	}
	return &folder{kept, &household.Household{Journal: kept, Now: now}, store, arriving}, nil
}

// tidy makes room of what nobody will finish sending.
func (f *folder) tidy(ctx context.Context, now time.Time, logger *slog.Logger) error {
	forgotten, err := f.media.ForgetAbandoned(ctx, now)
	if err != nil {
		return fmt.Errorf("photos whose sending was given up cannot be cleared away: %w", err)
	}
	if forgotten > 0 {
		logger.Info("photos whose sending was given up were cleared away", "count", forgotten)
	}
	return nil
}

func (f *folder) close() error { return f.journal.Close() }
