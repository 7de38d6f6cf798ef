package verbs

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
)

// read judges an input before its verb sees it: one JSON object, no unknown
// field, none missing or there twice, none of the wrong type, no date of a year
// that was mistyped. encoding/json alone would read 0 for what is null, "LAT"
// for "lat", and the last of two.
func read(text []byte, into any) error {
	if err := oneObject(text); err != nil {
		return fmt.Errorf("the input is not one JSON object: %w", err)
	}
	if err := judge(bytes.TrimSpace(text), reflect.TypeOf(into).Elem(), nil); err != nil {
		return err
	}
	if err := json.Unmarshal(text, into); err != nil {
		return errors.New(strings.TrimPrefix(err.Error(), "json: "))
	}
	return nil
}

// oneObject says why a text is not one JSON object.
func oneObject(text []byte) error {
	if len(bytes.TrimSpace(text)) == 0 {
		return errors.New("it is empty")
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	var first json.RawMessage
	if err := decoder.Decode(&first); err != nil {
		return unreadable(text, decoder, err)
	}
	if first[0] != '{' {
		return fmt.Errorf("it is %s", shown(first))
	}
	end := decoder.InputOffset()
	if after := bytes.TrimSpace(text[end:]); len(after) > 0 {
		return fmt.Errorf("%s follows it in line %d", shown(after), lineAt(text, len(text)-len(bytes.TrimLeft(text[end:], " \t\r\n"))))
	}
	return nil
}

func unreadable(text []byte, decoder *json.Decoder, err error) error {
	var syntax *json.SyntaxError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return fmt.Errorf("it ends in line %d before it is whole", lineAt(text, len(bytes.TrimSpace(text))))
	case errors.As(err, &syntax):
		return fmt.Errorf("%s in line %d", strings.TrimPrefix(syntax.Error(), "json: "), lineAt(text, int(syntax.Offset)))
	}
	return fmt.Errorf("%w in line %d", err, lineAt(text, int(decoder.InputOffset())))
}

// lineAt is the line, from 1, of a place in a text.
func lineAt(text []byte, offset int) int {
	return 1 + bytes.Count(text[:min(offset, len(text))], []byte("\n"))
}
