//go:build !js

package main

import (
	"flag"
	"fmt"
	"net/http"
	"os"
	"path/filepath"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

func serve() {
	addr := flag.String("addr", "localhost:8001", "where")
	flag.Parse()
	files := http.FileServer(http.Dir(filepath.Join(flag.Arg(0), "web")))
	http.Handle("/web/", http.StripPrefix("/web/", files))
	http.Handle("/", &app.Handler{Name: "Hello", Icon: app.Icon{Default: "/web/app.wasm", SVG: "/web/app.wasm"}})
	if err := http.ListenAndServe(*addr, nil); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
