//go:build !js

package cli

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"io"
	"mime"
	"path"
	"sync"

	"github.com/andybalholm/brotli"
)

// asset is one file of the app, as it is and packed.
type asset struct {
	kind   string // content type
	plain  []byte
	sum    [sha256.Size]byte
	brotli func() []byte // nil: not worth it
	gzip   func() []byte
}

// brotliLevel is for files that are packed when the server starts to need them.
// The app itself is packed at the strongest level when it is built.
const brotliLevel = 6

// leastPacked is the size in bytes below which packing does not pay.
const leastPacked = 1024

func newAsset(name string, plain []byte) *asset {
	a := &asset{kind: kindOf(name), plain: plain, sum: sha256.Sum256(plain)}
	if len(plain) >= leastPacked && path.Ext(name) != ".png" {
		a.brotli = sync.OnceValue(func() []byte { return smaller(plain, packBrotli(plain)) })
		a.gzip = sync.OnceValue(func() []byte { return smaller(plain, packGzip(plain)) })
	}
	return a
}

// newPacked makes an asset of a file that was packed with brotli.
func newPacked(name string, packed []byte) (*asset, error) {
	plain, err := io.ReadAll(brotli.NewReader(bytes.NewReader(packed)))
	if err != nil {
		return nil, fmt.Errorf("%s: not brotli data: %w", name, err)
	}
	a := newAsset(name, plain)
	a.brotli = func() []byte { return packed }
	return a, nil
}

// hash is the file's SHA-256 in hex.
func (a *asset) hash() string { return hex.EncodeToString(a.sum[:]) }

// integrity is the file's SHA-256 as an attribute of a page wants it: W3C
// Subresource Integrity, section 3.
func (a *asset) integrity() string {
	return "sha256-" + base64.StdEncoding.EncodeToString(a.sum[:])
}

// smaller is packed, or nil where packing gained nothing.
func smaller(plain, packed []byte) []byte {
	if len(packed) >= len(plain) {
		return nil
	}
	return packed
}

func packBrotli(plain []byte) []byte {
	var b bytes.Buffer
	w := brotli.NewWriterLevel(&b, brotliLevel)
	_, _ = w.Write(plain) // writing to memory does not fail
	_ = w.Close()
	return b.Bytes()
}

func packGzip(plain []byte) []byte {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	_, _ = w.Write(plain) // writing to memory does not fail
	_ = w.Close()
	return b.Bytes()
}

// kinds are the content types, which must not depend on the machine.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".json": "application/json", ".geojson": "application/geo+json", ".webmanifest": "application/manifest+json",
	".wasm": "application/wasm", ".txt": "text/plain; charset=utf-8", ".bin": "application/octet-stream", ".svg": "image/svg+xml", ".png": "image/png",
}

func kindOf(name string) string {
	ext := path.Ext(name)
	if k, ok := kinds[ext]; ok {
		return k
	}
	if k := mime.TypeByExtension(ext); k != "" {
		return k
	}
	return "application/octet-stream"
}
