//go:build !js

package browser

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Found by TestMain.
var (
	root     string // the repository
	program  string // the built program
	chromium string // the browser's program
)

func TestMain(m *testing.M) {
	if err := prepare(); err != nil {
		fmt.Fprintln(os.Stderr, "browser tests:", err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

func prepare() (err error) {
	if root, err = findRoot(); err != nil {
		return err
	}
	program = filepath.Join(root, ".build", "keelroom")
	if other := os.Getenv("KEELROOM_BIN"); other != "" {
		program = other
	}
	if _, err := os.Stat(program); err != nil {
		return fmt.Errorf("the built program is missing: run `make build` first (%w)", err)
	}
	found, err := exec.Command(filepath.Join(root, ".ci", "chromium")).Output()
	if err != nil {
		var failed *exec.ExitError
		if errors.As(err, &failed) {
			return fmt.Errorf("%s", strings.TrimSpace(string(failed.Stderr)))
		}
		return err
	}
	chromium = strings.TrimSpace(string(found))
	return nil
}

// findRoot is the folder above that holds go.mod.
func findRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("no go.mod in any folder above")
		}
		dir = up
	}
}
