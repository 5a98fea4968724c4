//go:build !js

// Package browser tests the app as a skipper meets it: the built program serves
// it, a real browser shows it, and the tests act on it by pointer, finger and
// key and read what is on the screen. It holds tests only.
//
// Model: a server is the built program on a port of its own, and can be killed
// and started again; a browser is one Chromium with a fresh profile; a page is
// one tab of it with a size, with or without a touch screen. A place names
// something on the page as a screen reader would, by role and name, or by a CSS
// selector. Nothing waits for a length of time: waits ask the page again until
// it shows what is wanted, and give up after a time that no working page needs.
//
// Whatever a test is about, it fails when the page, a worker or the service
// worker writes an error to the console, leaves an exception uncaught, breaks
// the Content-Security-Policy or asks another origin for anything. A test that
// causes such a thing on purpose allows it by name.
//
// The tests need .build/keelroom (make build) and a browser, which .ci/chromium
// finds or installs. KEELROOM_BIN names another program, CHROMIUM another
// browser. Pictures of the screen go to .build/shots.
//
// Out of scope: timings, which the benchmarks take, and what the native tests
// of the packages can show without a browser.
package browser
