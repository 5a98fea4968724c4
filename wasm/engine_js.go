//go:build js

package main

import (
	"fmt"
	"syscall/js"
)

// runEngine answers the page's requests, for ever. Messages of the engine have
// one member: ready, progress, error, or the pair plan and report.
func runEngine() {
	js.Global().Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		go answerDemo()
		return nil
	}))
	post(map[string]any{"ready": true})
	select {}
}

// answerDemo checks the demo day. A mistake within is told, not left to end the
// program in silence.
func answerDemo() {
	defer func() {
		if r := recover(); r != nil {
			post(map[string]any{"error": fmt.Sprintf("the check stopped: %v", r)})
		}
	}()
	planFile, report, err := checkDemo(fetch, func(words string) { post(map[string]any{"progress": words}) })
	if err != nil {
		post(map[string]any{"error": err.Error()})
		return
	}
	post(map[string]any{"plan": string(planFile), "report": string(report)})
}

func post(message map[string]any) { js.Global().Call("postMessage", message) }
