package main

import (
	"bytes"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"testing"
)

// Every module that either program links, as `go list -deps` tells it, is there
// with its version and the licence text of its folder: the app for the browser,
// and the native program, which packs what it serves.
func TestEveryModuleIsNamed(t *testing.T) {
	t.Chdir("../..")
	var b bytes.Buffer
	if err := run(&b, "web"); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for name, build := range map[string][]string{"browser": {"GOOS=js", "GOARCH=wasm"}, "native": {"GOOS=" + runtime.GOOS, "GOARCH=" + runtime.GOARCH}} {
		t.Run(name, func(t *testing.T) { everyModule(t, text, build) })
	}
	if !strings.Contains(text, "github.com/andybalholm/brotli ") {
		t.Error("brotli, which the native program packs with, is not named")
	}
	for _, want := range []string{"IANA Time Zone Database", "OpenLayers", "CC BY 4.0", "Copyright 2009 The Go Authors"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
}

func everyModule(t *testing.T, text string, build []string) {
	cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}|{{.Dir}}{{end}}{{end}}", "./wasm")
	cmd.Env = append(os.Environ(), build...)
	list, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	modules := strings.Fields(strings.ReplaceAll(string(list), " ", "\x00"))
	if len(modules) < 5 {
		t.Fatalf("only %d packages of modules", len(modules))
	}
	for _, line := range modules {
		name, dir, _ := strings.Cut(strings.ReplaceAll(line, "\x00", " "), "|")
		if !strings.Contains(text, name+"\n") {
			t.Errorf("%s is not named", name)
			continue
		}
		found := false
		for _, file := range []string{"LICENSE", "LICENSE.md", "LICENSE.txt", "LICENCE"} {
			if licence, err := os.ReadFile(dir + "/" + file); err == nil {
				found = strings.Contains(text, string(bytes.TrimSpace(licence)))
			}
		}
		if !found {
			t.Errorf("the licence of %s is not there word for word", name)
		}
	}
}
