//go:build !js

package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
)

// readUpTo reads a file, but no more than one byte over a limit: enough for
// the decoder, which knows the limit, to say that there is too much.
func readUpTo(path string, limit int) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder; a file is wanted", path)
	}
	return io.ReadAll(io.LimitReader(f, int64(limit)+1))
}

// readPlain is readUpTo for a file of a chart: what would make the reader wait, such
// as a pipe that nobody writes to, or never ends is refused before it is opened.
func readPlain(path string, limit int) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir() || info.Mode().IsRegular():
		return readUpTo(path, limit)
	}
	return nil, fmt.Errorf("%s is %s; a file is wanted", path, modeWords(info.Mode()))
}

// modeWords names what is neither file nor folder.
func modeWords(m fs.FileMode) string {
	switch {
	case m&fs.ModeNamedPipe != 0:
		return "a pipe (FIFO)"
	case m&fs.ModeSocket != 0:
		return "a socket"
	case m&fs.ModeDevice != 0:
		return "a device"
	}
	return "no plain file"
}

// named puts the name of a file before each line of an error about it.
func named(path string, err error) error {
	lines := strings.Split(err.Error(), "\n")
	for i, line := range lines {
		lines[i] = path + ": " + line
	}
	return errors.New(strings.Join(lines, "\n"))
}

// complain writes an error, each of its lines with the command's name.
func complain(diag io.Writer, command string, err error) {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		fmt.Fprintf(diag, "keelroom %s: %s\n", command, line)
	}
}
