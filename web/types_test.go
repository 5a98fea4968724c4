package web

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The types in the scripts' comments are checked by the compiler that npm fetches
// as the lock file says. tsconfig.json names the modules from which all others are
// reached.
func TestTypes(t *testing.T) {
	compiler := typescript(t)
	for _, project := range []string{".", "testdata/types/worker"} {
		out, err := exec.Command("node", compiler, "-p", project, "--pretty", "false").CombinedOutput()
		for line := range strings.Lines(string(out)) {
			t.Errorf("%s: %s", project, strings.TrimSpace(line))
		}
		if err != nil && !t.Failed() {
			t.Fatalf("%s: %v", project, err)
		}
	}
}

// A mistake of each kind that the types are for is found.
func TestTypesFindMistakes(t *testing.T) {
	compiler := typescript(t)
	web, err := filepath.Abs(".")
	if err != nil {
		t.Fatal(err)
	}
	mistakes := map[string]string{
		"member.js":  `import { meets } from "WEB/chart/space.js"; meets({ wset: 1 }, [0, 0, 1, 1]);`,
		"missing.js": `/** @param {Day | null} day */ export const from = (day) => day.from;`,
		"untyped.js": `export const twice = (v) => 2 * v;`,
		"export.js":  `import { mets } from "WEB/chart/space.js"; mets();`,
		"words.js":   `import { stretch } from "WEB/chart/space.js"; stretch("1 m");`,
	}
	dir := t.TempDir()
	files := []string{filepath.Join(web, "types.d.ts")}
	for name, text := range mistakes {
		files = append(files, name)
		text = strings.ReplaceAll(text, "WEB", filepath.ToSlash(web))
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	config, err := json.Marshal(map[string]any{"extends": filepath.Join(web, "tsconfig.json"), "files": files})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "tsconfig.json"), config, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("node", compiler, "-p", dir, "--pretty", "false").CombinedOutput()
	for name := range mistakes {
		if err == nil || !strings.Contains(string(out), name+"(1,") {
			t.Errorf("%s: the mistake is not found: %s", name, out)
		}
	}
}

// typescript is the compiler's script, fetched if it is not there yet.
func typescript(t *testing.T) string {
	t.Helper()
	for _, tool := range []string{"node", "npm"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatal(tool + " is not there, so the types of the scripts were not checked")
			}
			t.Skip("SKIPPED: " + tool + " is not there, so the types of the scripts were not checked")
		}
	}
	folder := "../testdata/npm/tsc"
	compiler := filepath.Join(folder, "node_modules", "typescript", "bin", "tsc")
	if installed(folder) {
		return compiler
	}
	if out, err := exec.Command("npm", "ci", "--silent", "--ignore-scripts", "--prefix", folder).CombinedOutput(); err != nil {
		t.Fatalf("npm ci for the compiler: %v\n%s", err, out)
	}
	return compiler
}

// installed says whether the version that the lock file wants is there.
func installed(folder string) bool {
	version := func(file, at string) string {
		var doc map[string]any
		text, err := os.ReadFile(filepath.Join(folder, file))
		if err != nil || json.Unmarshal(text, &doc) != nil {
			return ""
		}
		if at != "" {
			packages, _ := doc["packages"].(map[string]any)
			doc, _ = packages[at].(map[string]any)
		}
		v, _ := doc["version"].(string)
		return v
	}
	wanted := version("package-lock.json", "node_modules/typescript")
	return wanted != "" && version("node_modules/typescript/package.json", "") == wanted
}
