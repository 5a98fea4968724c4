// Command pack compresses the built app for serving:
//
//	go run ./wasm/pack [-level 11] .build/app.wasm web/dist/app.wasm.br
//
// Brotli at its strongest takes half a minute; level 9 takes a second or two and
// gives a file a seventh larger. A packed file that already holds the same app
// is left as it is, whatever its level.
package main

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/andybalholm/brotli"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(2)
	}
}

func run(args []string) error {
	f := flag.NewFlagSet("pack", flag.ContinueOnError)
	level := f.Int("level", brotli.BestCompression, "of compression, 0 to 11")
	into := f.String("into", "", "a folder for the packed files, each named by what it holds")
	if err := f.Parse(args); err != nil {
		return err
	}
	if *level < 0 || *level > brotli.BestCompression {
		return fmt.Errorf("level %d; 0 to 11 is wanted", *level)
	}
	if *into != "" {
		return packAll(*into, f.Args(), *level)
	}
	if args = f.Args(); len(args) != 2 {
		return fmt.Errorf("%d files; the file to pack and the packed file are wanted", len(args))
	}
	return packOne(args[0], args[1], *level)
}

func packOne(from, to string, level int) error {
	plain, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	if holds(to, plain) {
		return nil
	}
	packed, err := pack(plain, level)
	if err != nil {
		return err
	}
	fmt.Printf("%s: %d bytes, packed %d\n", from, len(plain), len(packed))
	return write(to, packed)
}

// packAll packs files into a folder, each under the SHA-256 of what it holds, and
// takes out what is of no use any more.
func packAll(folder string, files []string, level int) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	wanted := map[string]bool{}
	for _, file := range files {
		plain, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		name := fmt.Sprintf("%x.br", sha256.Sum256(plain))
		wanted[name] = true
		if holds(filepath.Join(folder, name), plain) {
			continue
		}
		packed, err := pack(plain, level)
		if err != nil {
			return err
		}
		if err := write(filepath.Join(folder, name), packed); err != nil {
			return err
		}
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !wanted[e.Name()] {
			if err := os.Remove(filepath.Join(folder, e.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

// write puts a file there whole or not at all.
func write(path string, data []byte) error {
	beside := path + ".new"
	if err := os.WriteFile(beside, data, 0o644); err != nil {
		return err
	}
	return os.Rename(beside, path)
}

func pack(plain []byte, level int) ([]byte, error) {
	var b bytes.Buffer
	// The largest window that HTTP allows (RFC 7932 section 9.1): the program is larger than the usual one.
	w := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: level, LGWin: 24})
	if _, err := w.Write(plain); err != nil {
		return nil, err
	}
	err := w.Close()
	return b.Bytes(), err
}

// holds says whether a packed file holds these bytes.
func holds(path string, plain []byte) bool {
	packed, err := os.ReadFile(path)
	if err != nil {
		return false
	}
	held, err := io.ReadAll(brotli.NewReader(bytes.NewReader(packed)))
	return err == nil && bytes.Equal(held, plain)
}
