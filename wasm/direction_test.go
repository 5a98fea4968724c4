//go:build !js

package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// imports lists what each package of the project imports, tests apart, as it is
// built for a system.
func imports(t *testing.T, goos, goarch string) map[string][]string {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "keelroom/...")
	cmd.Env = append(os.Environ(), "GOOS="+goos, "GOARCH="+goarch)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	list := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		list[strings.TrimPrefix(words[0], "keelroom/")] = words[1:]
	}
	return list
}

// The direction of dependency is geo, hazards, app, wasm; web imports nothing.
// Programs that make files (package main below geo and hazards) are no part of
// the engine, and may read and write.
func TestDirectionOfDependency(t *testing.T) {
	const goApp = "github.com/maxence-charriere/go-app/"
	forbidden := []struct{ in, prefix string }{
		{"geo", "keelroom/hazards"}, {"geo", "keelroom/app"}, {"geo", "keelroom/wasm"}, {"geo", "keelroom/web"}, {"geo", "net/http"}, {"geo", "syscall/js"}, {"geo", goApp},
		// The rules of a collection of charts decode nothing: the decoder asks them.
		{"geo/library", "keelroom/geo/enc"}, {"geo/library", "keelroom/geo/layer"}, {"geo/library", "keelroom/geo/geojson"},
		{"hazards", "keelroom/app"}, {"hazards", "keelroom/wasm"}, {"hazards", "keelroom/web"}, {"hazards", "net/http"}, {"hazards", "syscall/js"}, {"hazards", goApp},
		{"app", "keelroom/wasm"}, {"app", "keelroom/web"}, {"app", "net/http"}, {"app", "syscall/js"},
		{"app/state", goApp}, {"app/state", "keelroom/app/screen"}, {"app/engine", goApp}, {"app/engine", "keelroom/app/state"}, {"app/engine", "keelroom/app/screen"},
		{"app/edit", goApp}, {"app/entry", goApp}, {"app/gpx", goApp}, {"app/phrase", goApp},
		{"wasm/cli", "keelroom/app/state"}, {"wasm/cli", "keelroom/app/screen"}, {"wasm/cli", "syscall/js"},
		{"web", ""},
	}
	for _, system := range [][2]string{{"linux", "amd64"}, {"js", "wasm"}} {
		list := imports(t, system[0], system[1])
		if len(list["hazards"]) == 0 || len(list["app/state"]) == 0 || len(list["app/screen"]) == 0 {
			t.Fatal("no packages listed")
		}
		for name, of := range list {
			for _, f := range forbidden {
				if name != f.in && !strings.HasPrefix(name, f.in+"/") || strings.HasSuffix(name, "gen") {
					continue
				}
				for _, imported := range of {
					if imported != "embed" && strings.HasPrefix(imported, f.prefix) {
						t.Errorf("%s: %s imports %s", system[0], name, imported)
					}
				}
			}
		}
	}
}
