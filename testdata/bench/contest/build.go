package contest

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Root is the folder of the repository, looked for from the working directory upwards:
// the benchmarks are a module of their own in its midst.
func Root() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for at := dir; ; at = filepath.Dir(at) {
		if _, err := os.Stat(filepath.Join(at, here, "go.mod")); err == nil {
			return at, nil
		}
		if at == filepath.Dir(at) {
			return "", fmt.Errorf("%s is not in a folder with %s, nor below one; run this within the repository", dir, here)
		}
	}
}

// here is where the module of the benchmarks lies in the repository.
const here = "testdata/bench"

// Shared is a path in the folder `shared`, which lies beside the repository.
func Shared(parts ...string) (string, error) {
	root, err := Root()
	if err != nil {
		return "", err
	}
	path := filepath.Join(append([]string{root, "..", "shared"}, parts...)...)
	if _, err := os.Stat(path); err != nil {
		return "", fmt.Errorf("%s is missing: the real charts are wanted in a folder `shared` beside the repository", filepath.Join(append([]string{"shared"}, parts...)...))
	}
	return path, nil
}

// Build compiles a program of this module for the machine and for Node, and
// gives the commands that run it. The files go to a folder of the caller's.
func Build(folder, program string) (native, wasm []string, err error) {
	root, err := Root()
	if err != nil {
		return nil, nil, err
	}
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, nil, fmt.Errorf("go env GOROOT: %w", err)
	}
	run := filepath.Join(strings.TrimSpace(string(goroot)), "lib", "wasm", "go_js_wasm_exec")
	out := filepath.Join(folder, filepath.Base(filepath.Dir(program))+"-"+filepath.Base(program))
	if err := compile(root, program, out); err != nil {
		return nil, nil, err
	}
	if err := compile(root, program, out+".wasm", "GOOS=js", "GOARCH=wasm"); err != nil {
		return nil, nil, err
	}
	return []string{out}, []string{run, out + ".wasm"}, nil
}

func compile(root, program, out string, env ...string) error {
	cmd := exec.Command("go", "build", "-o", out, program)
	cmd.Dir, cmd.Env, cmd.Stderr = filepath.Join(root, here), append(os.Environ(), env...), os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("go build %s: %w", program, err)
	}
	return nil
}
