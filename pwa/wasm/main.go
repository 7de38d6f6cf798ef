//go:build js && wasm

// Command wasm is the almanac inside the phone's worker. It hangs three
// functions on globalThis.haulmAlmanac and waits; all three take and give JSON
// texts:
//
//	upsert('[{"record","fields"}]')  → '{"answer":{"skipped":[…]}}'
//	forget('["planting/…"]')         → '{"answer":{}}'
//	ask(verb, '{…}')                 → '{"answer":…}'
//
// or '{"error":"a sentence"}'. This is the only file that touches syscall/js.
package main

import (
	"encoding/json"
	"fmt"
	"syscall/js"

	"haulm/almanac/verbs"
)

func main() {
	almanac, err := verbs.NewStanding()
	if err != nil {
		panic(err)
	}
	js.Global().Set("haulmAlmanac", map[string]any{
		"upsert": js.FuncOf(func(_ js.Value, args []js.Value) any {
			return reply(func() ([]byte, error) { return almanac.Upsert(text(args, 0)) })
		}),
		"forget": js.FuncOf(func(_ js.Value, args []js.Value) any {
			return reply(func() ([]byte, error) { return almanac.Forget(text(args, 0)) })
		}),
		"ask": js.FuncOf(func(_ js.Value, args []js.Value) any {
			return reply(func() ([]byte, error) { return almanac.Ask(string(text(args, 0)), text(args, 1)) })
		}),
	})
	select {}
}

func text(args []js.Value, i int) []byte {
	if i >= len(args) || args[i].Type() != js.TypeString {
		return nil
	}
	return []byte(args[i].String())
}

// reply wraps an answer or an error; a panic becomes an error, so that one odd
// record cannot stop the almanac for good.
func reply(answer func() ([]byte, error)) (said string) {
	defer func() {
		if fault := recover(); fault != nil {
			said = failure(fmt.Errorf("the almanac failed on this question: %v", fault))
		}
	}()
	out, err := answer()
	if err != nil {
		return failure(err)
	}
	return `{"answer":` + string(out) + `}`
}

func failure(err error) string {
	out, marshalErr := json.Marshal(map[string]string{"error": err.Error()})
	if marshalErr != nil {
		return `{"error":"the almanac failed and its error cannot be written"}`
	}
	return string(out)
}
