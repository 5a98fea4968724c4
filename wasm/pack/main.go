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
	"flag"
	"fmt"
	"io"
	"os"

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
	if err := f.Parse(args); err != nil {
		return err
	}
	if args = f.Args(); len(args) != 2 || *level < 0 || *level > brotli.BestCompression {
		return fmt.Errorf("level %d and %d files; a level from 0 to 11, the file to pack and the packed file are wanted", *level, len(args))
	}
	plain, err := os.ReadFile(args[0])
	if err != nil {
		return err
	}
	if holds(args[1], plain) {
		return nil
	}
	packed, err := pack(plain, *level)
	if err != nil {
		return err
	}
	fmt.Printf("%s: %d bytes, packed %d\n", args[0], len(plain), len(packed))
	beside := args[1] + ".new"
	if err := os.WriteFile(beside, packed, 0o644); err != nil {
		return err
	}
	return os.Rename(beside, args[1])
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
