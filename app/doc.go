// Package app is the app without the browser it runs in: below it are the state of the
// screen (state), what draws it (screen), the engine that checks in a worker (engine),
// the gestures on a plan (edit), what is typed (entry) and routes for other devices (gpx).
//
// The packages infer no rule of their own: they ask package hazards, and arrange and word
// what it answers. What is not known is shown as not known. Fetching, storage, the clock
// and everything else that touches the browser is behind the interfaces of package state,
// which package main of wasm implements.
package app
