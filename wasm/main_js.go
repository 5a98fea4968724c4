//go:build js

package main

import (
	"syscall/js"
	_ "time/tzdata" // in a browser Go knows no zones of its own
)

// main takes the role of the place it runs in: a page is the screen, a worker,
// which has no document, is the engine that checks.
func main() {
	if js.Global().Get("document").IsUndefined() {
		runEngine()
		return
	}
	runScreen()
}
