//go:build !js

package cli

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"keelroom/hazards/tide/stationdata"
)

// errNotBuilt says that the program was built before the app was.
var errNotBuilt = errors.New("this keelroom was built without the app; `make build` builds both")

// wasmPath is where the app is among the files, packed.
const wasmPath = "dist/app.wasm.br"

// sourcesPath is the list of whose work the app is made of.
const sourcesPath = "dist/sources.txt"

// bundle is the whole app as files. One bundle is one version: any change of any
// file makes another. All files but two are in a folder with the version in its
// name, so a page can never be given a file of another version: where the host has
// moved on, it gets none.
type bundle struct {
	base    string // begins and ends with a slash
	version string
	parts   map[string]*asset // by their paths below the version's folder
	assets  map[string]*asset // all, by their paths below the base
}

// indexPath is the page, which is among the parts too, as pagePath.
const (
	indexPath = "index.html"
	pagePath  = "page.html"
)

// workerPath is the service worker, which lists all parts.
const workerPath = "app-worker.js"

// folderOf is where the parts of a version are, below the base.
func folderOf(version string) string { return "build-" + version + "/" }

// home is the address of the folder of the version.
func (b *bundle) home() string { return b.base + folderOf(b.version) }

// newBundle makes the app of the files of package web. inMeta puts the policy
// into the page, for hosts that send no headers of ours.
func newBundle(files fs.FS, base string, inMeta bool) (*bundle, error) {
	if err := checkBase(base); err != nil {
		return nil, err
	}
	b := &bundle{base: base, version: noVersion, parts: map[string]*asset{}}
	if err := b.addWasm(files); err != nil {
		return nil, err
	}
	if err := b.addFiles(files); err != nil {
		return nil, err
	}
	script, err := wasmExec()
	if err != nil {
		return nil, err
	}
	b.parts["wasm_exec.js"] = newAsset("wasm_exec.js", script)
	template, err := fs.ReadFile(files, workerPath)
	if err != nil {
		return nil, err
	}
	// What the manifest and the page say of the version does not count for it.
	worker, err := b.addMade(string(template), inMeta)
	if err != nil {
		return nil, err
	}
	b.version = b.hash(worker)
	if worker, err = b.addMade(string(template), inMeta); err != nil {
		return nil, err
	}
	b.gather(worker)
	return b, nil
}

// noVersion stands for the version while it is worked out.
const noVersion = "0"

// gather puts all files at the paths they are served at.
func (b *bundle) gather(worker *asset) {
	b.assets = map[string]*asset{indexPath: b.parts[pagePath], workerPath: worker}
	for name, a := range b.parts {
		b.assets[folderOf(b.version)+name] = a
	}
}

// checkBase wants a path such as / or /keelroom/.
func checkBase(base string) error {
	plain := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("/-_.~", r)
	}
	bad := strings.IndexFunc(base, func(r rune) bool { return !plain(r) }) >= 0
	if bad || base != "/" && (!strings.HasPrefix(base, "/") || path.Clean(base) == "/" || path.Clean(base)+"/" != base) {
		return fmt.Errorf("-base %q; a path such as / or /keelroom/ is wanted", base)
	}
	return nil
}

func (b *bundle) addWasm(files fs.FS) error {
	packed, err := fs.ReadFile(files, wasmPath)
	if errors.Is(err, fs.ErrNotExist) {
		return errNotBuilt
	}
	if err != nil {
		return err
	}
	if b.parts["web/app.wasm"], err = newPacked("app.wasm", packed); err != nil {
		return err
	}
	text, err := fs.ReadFile(files, sourcesPath)
	if errors.Is(err, fs.ErrNotExist) {
		return errNotBuilt
	}
	b.parts["web/sources.txt"] = newAsset("sources.txt", text)
	b.parts["web/stations.bin"] = packedAsset(files, "stations.bin", stationdata.Bytes)
	return err
}

// packedAsset is an asset that the build has packed better than a server has
// time for, if it has: under its hash, so a packed form never belongs to another.
func packedAsset(files fs.FS, name string, plain []byte) *asset {
	a := newAsset(name, plain)
	packed, err := fs.ReadFile(files, fmt.Sprintf("%s%x.br", packedFolder, sha256.Sum256(plain)))
	if err == nil && len(packed) < len(plain) {
		a.brotli = func() []byte { return packed }
	}
	return a
}

// packedFolder holds files packed by the build.
const packedFolder = "dist/packed/"

// unserved are files beside the served ones that nobody asks for.
var unserved = map[string]bool{".go": true, ".md": true, ".mjs": true}

// addFiles takes the files as they are, and lists those of the demo.
func (b *bundle) addFiles(files fs.FS) error {
	index := demoIndex{Chart: []string{}}
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || name == workerPath || strings.HasPrefix(name, "dist/") || unserved[path.Ext(name)] {
			return err
		}
		data, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		b.parts["web/"+name] = packedAsset(files, name, data)
		switch within, isDemo := strings.CutPrefix(name, demoFolder); {
		case isDemo && strings.HasPrefix(within, "chart/"):
			index.Chart = append(index.Chart, within)
		case isDemo && path.Ext(within) == ".geojson":
			index.Plan = within
		}
		return nil
	})
	if err != nil {
		return err
	}
	list, err := json.Marshal(index)
	b.parts["web/"+demoIndexName] = newAsset(demoIndexName, list)
	return err
}

// addMade adds the parts that name the version, and gives the service worker.
func (b *bundle) addMade(template string, inMeta bool) (*asset, error) {
	b.parts["manifest.webmanifest"] = newAsset("manifest.webmanifest", manifest(b.base, b.home()))
	page, err := b.page(inMeta)
	if err != nil {
		return nil, err
	}
	b.parts[pagePath] = newAsset(pagePath, page)
	return newAsset(workerPath, b.worker(template)), nil
}

// worker fills in the service worker's template.
func (b *bundle) worker(template string) []byte {
	sums := map[string]string{}
	for name, a := range b.parts {
		sums[name] = a.hash()
	}
	return []byte(strings.NewReplacer(
		"{{.Base}}", jsText(b.base), "{{.Version}}", jsText(b.version), "{{.Folder}}", jsText(folderOf(b.version)),
		"{{.Files}}", jsText(sums), "{{.Page}}", jsText(pagePath),
	).Replace(template))
}

func jsText(v any) string {
	b, _ := json.Marshal(v) // texts only, in the order of their keys: does not fail
	return string(b)
}

// names are the paths of all files, in order.
func (b *bundle) names() []string { return slices.Sorted(maps.Keys(b.assets)) }

// hash is over the service worker, which lists all names and files.
func (b *bundle) hash(worker *asset) string { return worker.hash()[:16] }
