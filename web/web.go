//go:build !js

// Package web holds the files that the app is served with: styles, icons,
// scripts, the demo waters and, once it is built, the app itself. Only native
// programs hold them; a browser fetches them.
//
//	style.css               the look
//	first.js                runs before all else: says what did not arrive or has stopped
//	start.js                the page's own module: imports all others
//	program.js, version.js  the running program; versions of the app and a newer one
//	rules.js                what the engine says once of its rules
//	moves.js                the way of a drag, from the chart view to the worker
//	store.js                keeps plans, layers and settings in IndexedDB
//	device.js               files in and out, keys, palette
//	watch.js, watchsound.js  the anchor watch's positions, screen, battery and sounds
//	chart/, strip/          the chart view and the day strip
//	vendor/                 other people's scripts, with version, licence and checksum
//	engine.js               starts the app's second role, the worker that checks
//	app-worker.js           template of the service worker, see package main
//	icon.svg, icon-*.png    our own icon
//	demo/                   invented waters and an invented day
//	dist/                   app.wasm.br and sources.txt, which `make build` puts there; else empty
package web

import "embed"

// Files are the files, by their paths in this folder.
//
//go:embed style.css first.js start.js rules.js calm.js program.js version.js moves.js store.js lastday.js device.js watch.js watchsound.js engine.js app-worker.js icon.svg icon-192.png icon-512.png
//go:embed chart/*.js chart/*.css strip/*.js strip/*.css vendor
//go:embed demo/plan.geojson demo/chart/*.geojson
//go:embed all:dist
var Files embed.FS
