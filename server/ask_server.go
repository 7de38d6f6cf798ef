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
	"os"
	"path/filepath"
	"syscall"

	"haulm/server/refusal"
)

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
	return sendServer(ctx, dir, path, bytes.NewReader(text))
}

// sendServer does so with a body of bytes.
func sendServer(ctx context.Context, dir, path string, body io.Reader) (answer *http.Response, served bool, err error) {
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://haulm"+path, body)
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
