package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"syscall"

	"haulm/server/refusal"
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

// verifyThroughServer asks the server that has a folder; served is false when
// none is running there.
func verifyThroughServer(ctx context.Context, dir string, progress func(done int)) (found verification, served bool, err error) {
	answer, served, err := postServer(ctx, dir, "/verify", nil)
	if answer == nil {
		return found, served, err
	}
	defer answer.Body.Close()
	for lines := json.NewDecoder(answer.Body); ; {
		var line verifyLine
		if err := lines.Decode(&line); err != nil {
			return found, true, fmt.Errorf("the server of %s stopped in the middle of checking: %w", dir, err)
		}
		switch {
		case line.Why != "":
			return found, true, refusal.New(refusal.Fault, "refused", "%s", line.Why)
		case line.Found != nil:
			return *line.Found, true, nil
		}
		progress(line.Done)
	}
}

func tell(w http.ResponseWriter, body any, err error) {
	if err != nil {
		w.WriteHeader(http.StatusConflict)
		body = failure{err.Error()}
	}
	json.NewEncoder(w).Encode(body)
}

// callServer asks the server that has a data folder. served is false when none
// is running there; into may be nil.
func callServer(ctx context.Context, dir, path string, asked, into any) (served bool, err error) {
	answer, served, err := postServer(ctx, dir, path, asked)
	if answer == nil {
		return served, err
	}
	defer answer.Body.Close()
	return true, readTold(answer, into)
}

// postServer gives the server's answer, whose body the caller closes, or nil.
func postServer(ctx context.Context, dir, path string, asked any) (answer *http.Response, served bool, err error) {
	text, err := json.Marshal(asked)
	if err != nil {
		return nil, false, err
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://haulm"+path, bytes.NewReader(text))
	if err != nil {
		return nil, false, err
	}
	answer, err = socketClient(dir).Do(request)
	if errors.Is(err, os.ErrNotExist) || errors.Is(err, syscall.ECONNREFUSED) {
		return nil, false, nil
	}
	if err != nil {
		return nil, true, fmt.Errorf("the server of %s does not answer: %w", dir, err)
	}
	return answer, true, nil
}

func socketClient(dir string) *http.Client {
	dial := func(ctx context.Context, _, _ string) (net.Conn, error) {
		return new(net.Dialer).DialContext(ctx, "unix", filepath.Join(dir, socketFile))
	}
	return &http.Client{Transport: &http.Transport{DialContext: dial, DisableKeepAlives: true}}
}

func readTold(answer *http.Response, into any) error {
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		return err
	}
	if answer.StatusCode != http.StatusOK {
		var told failure
		if err := json.Unmarshal(text, &told); err != nil {
			return err
		}
		return refusal.New(refusal.Fault, "refused", "%s", told.Why)
	}
	if into == nil {
		return nil
	}
	return json.Unmarshal(text, into)
}
