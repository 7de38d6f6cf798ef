package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"

	"haulm/server/unsent"
)

// The running server answers commands of the same machine and user on a socket
// in its data folder: HTTP and JSON, one path for each command.

type inviteRequest struct {
	Garden string `json:"garden"`
	Role   string `json:"role"`
}

// failure is how the socket says no.
type failure struct {
	Why string `json:"why"`
}

// listenSocket opens the socket, in place of one that a killed server left.
func listenSocket(dir string) (net.Listener, error) {
	path := filepath.Join(dir, socketFile)
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	listener, err := net.Listen("unix", path)
	if err != nil {
		return nil, fmt.Errorf("the socket %s for other haulm commands cannot be opened: %w; a shorter path for --data, on a disk that takes sockets, helps", path, err)
	}
	return listener, os.Chmod(path, socketMode)
}

// socketHandler answers the commands.
func socketHandler(f *folder, public *url.URL) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("POST /invite", func(w http.ResponseWriter, r *http.Request) {
		var asked inviteRequest
		if err := json.NewDecoder(r.Body).Decode(&asked); err != nil {
			tell(w, nil, err)
			return
		}
		made, err := makeInvitation(r.Context(), f, public, asked.Garden, asked.Role)
		tell(w, made, err)
	})
	mux.HandleFunc("POST /verify", func(w http.ResponseWriter, r *http.Request) {
		tellVerification(w, r, f)
	})
	mux.HandleFunc("POST /import", func(w http.ResponseWriter, r *http.Request) {
		summary, err := f.taker().Spool(r.Context(), f.arriving, r.Body, unsent.Terms{Check: r.URL.Query().Get("check") == "true"})
		tell(w, summary, err)
	})
	mux.HandleFunc("POST /healthy", func(w http.ResponseWriter, _ *http.Request) {
		tell(w, struct{}{}, f.journal.Ready())
	})
	return mux
}

// A verifyLine is one line of the answer to /verify: how far it is, or at the
// end what was found or why not.
type verifyLine struct {
	Done  int           `json:"done,omitempty"`
	Found *verification `json:"found,omitempty"`
	Why   string        `json:"why,omitempty"`
}

// progressEvery is how many values lie between two lines of progress.
const progressEvery = 1000

func tellVerification(w http.ResponseWriter, r *http.Request, f *folder) {
	lines, stream := json.NewEncoder(w), http.NewResponseController(w)
	found, err := f.verify(r.Context(), func(done int) {
		if done%progressEvery == 0 {
			lines.Encode(verifyLine{Done: done})
			stream.Flush()
		}
	})
	if err != nil {
		lines.Encode(verifyLine{Why: err.Error()})
		return
	}
	lines.Encode(verifyLine{Found: &found})
}

func tell(w http.ResponseWriter, body any, err error) {
	if err != nil {
		w.WriteHeader(http.StatusConflict)
		body = failure{err.Error()}
	}
	json.NewEncoder(w).Encode(body)
}
