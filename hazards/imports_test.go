//go:build !js

package hazards

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// deps lists what a package is built from, for the machine or for the browser.
func deps(t *testing.T, target, pkg string) []string {
	t.Helper()
	cmd := exec.Command("go", "list", "-deps", pkg)
	cmd.Dir = repoRoot(t)
	cmd.Env = os.Environ()
	if target == "js" {
		cmd.Env = append(cmd.Env, "GOOS=js", "GOARCH=wasm")
	}
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list -deps %s: %v", pkg, err)
	}
	return strings.Fields(string(out))
}

// packages lists the packages of a pattern.
func packages(t *testing.T, pattern string) []string {
	t.Helper()
	cmd := exec.Command("go", "list", pattern)
	cmd.Dir = repoRoot(t)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list %s: %v", pattern, err)
	}
	return strings.Fields(string(out))
}

// The direction of dependency: geo <- hazards <- app <- wasm; web imports
// nothing of ours. geo and hazards are pure: no HTTP, no browser, no screen.
func TestDirectionOfDependencies(t *testing.T) {
	generators := map[string]bool{"keelroom/geo/chart/demogen": true, "keelroom/hazards/tide/stationgen": true}
	rules := []struct {
		pattern   string
		forbidden []string
	}{
		{"./geo/...", []string{"keelroom/hazards", "keelroom/app", "keelroom/wasm", "keelroom/web", "net/http", "syscall/js", "github.com/maxence-charriere/go-app", "github.com/paulmach/orb/geojson"}},
		{"./hazards/...", []string{"keelroom/app", "keelroom/wasm", "keelroom/web", "net/http", "syscall/js", "github.com/maxence-charriere/go-app", "github.com/paulmach/orb/geojson"}},
	}
	for _, r := range rules {
		for _, pkg := range packages(t, r.pattern) {
			if generators[pkg] {
				continue
			}
			for _, target := range []string{"native", "js"} {
				for _, d := range deps(t, target, pkg) {
					for _, f := range r.forbidden {
						// The standard library itself uses syscall/js in the browser build.
						if f == "syscall/js" && target == "js" {
							continue
						}
						if d == f || strings.HasPrefix(d, f+"/") {
							t.Errorf("%s (%s) depends on %s", pkg, target, d)
						}
					}
				}
			}
		}
	}
}

// Only wasm touches the browser, only app and wasm the screen library.
func TestWhoImportsTheBrowser(t *testing.T) {
	cmd := exec.Command("go", "list", "-e", "-f", "{{.ImportPath}}: {{join .Imports \" \"}}", "./...")
	cmd.Dir = repoRoot(t)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		pkg, imports, _ := strings.Cut(line, ":")
		if strings.Contains(imports, " syscall/js") && pkg != "keelroom/wasm" {
			t.Errorf("%s imports syscall/js", pkg)
		}
		if strings.Contains(imports, "maxence-charriere/go-app") && pkg != "keelroom/wasm" && !strings.HasPrefix(pkg, "keelroom/app") {
			t.Errorf("%s imports the screen library", pkg)
		}
	}
}
