//go:build js

package main

import (
	"errors"
	"fmt"
	"syscall/js"
)

// await waits for a promise. It must not be called within a callback: the
// promise is kept only once that has returned.
func await(promise js.Value) (js.Value, error) {
	type answer struct {
		value js.Value
		err   error
	}
	done := make(chan answer, 1)
	kept := js.FuncOf(func(_ js.Value, args []js.Value) any {
		done <- answer{value: args[0]}
		return nil
	})
	broken := js.FuncOf(func(_ js.Value, args []js.Value) any {
		done <- answer{err: errors.New(text(args[0]))}
		return nil
	})
	defer kept.Release()
	defer broken.Release()
	promise.Call("then", kept, broken)
	a := <-done
	return a.value, a.err
}

// text words any value.
func text(v js.Value) string { return js.Global().Get("String").Invoke(v).String() }

// fetch gets a file from where the program came from. The path is relative to
// the script or page that runs.
func fetch(path string) ([]byte, error) {
	response, err := await(js.Global().Call("fetch", path))
	if err != nil {
		return nil, fmt.Errorf("%s cannot be fetched: %w", path, err)
	}
	if !response.Get("ok").Bool() {
		return nil, fmt.Errorf("%s cannot be fetched: the server answers %d", path, response.Get("status").Int())
	}
	buffer, err := await(response.Call("arrayBuffer"))
	if err != nil {
		return nil, fmt.Errorf("%s cannot be fetched: %w", path, err)
	}
	return bytesIn(js.Global().Get("Uint8Array").New(buffer)), nil
}

// bytesIn copies a Uint8Array into the program, bytesOut out of it.
func bytesIn(array js.Value) []byte {
	b := make([]byte, array.Length())
	js.CopyBytesToGo(b, array)
	return b
}

func bytesOut(b []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(b))
	js.CopyBytesToJS(array, b)
	return array
}
