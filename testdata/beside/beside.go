// Package beside finds, for tests, the repository and the folder `shared` of real
// charts and check values that lies beside it and is never part of it.
package beside

import (
	"os"
	"path/filepath"
	"testing"
)

// Root is the folder of go.mod, above the working directory.
func Root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

// File is a file or folder of `shared`. Without it the test is skipped, and says
// so; under CI=true it fails.
func File(t testing.TB, parts ...string) string {
	t.Helper()
	path := filepath.Join(append([]string{Root(t), "..", "shared"}, parts...)...)
	if _, err := os.Stat(path); err == nil {
		return path
	}
	name := filepath.Join(append([]string{"shared"}, parts...)...)
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is not beside the repository", name)
	}
	t.Skipf("SKIPPED, NOT CHECKED: %s is not beside the repository", name)
	return ""
}
