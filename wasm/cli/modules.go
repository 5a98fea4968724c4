//go:build !js

package cli

import (
	"fmt"
	"path"
	"regexp"
	"slices"
)

// entryModule is the page's own module, which imports all others.
const entryModule = "web/start.js"

// imported is the relative address in an import of a module. The scripts write
// each import as a statement of its own, on one line.
var imported = regexp.MustCompile(`(?m)^import (?:.* from )?"(\.[^"]*)";$`)

// modules are all modules that the entry imports, however far down, and the entry
// itself as the last. The page names them all, so that they are fetched in one
// round and not level by level.
func (b *bundle) modules() ([]string, error) {
	seen := map[string]bool{}
	var list []string
	var visit func(name string) error
	visit = func(name string) error {
		if seen[name] {
			return nil
		}
		seen[name] = true
		part := b.parts[name]
		if part == nil {
			return fmt.Errorf("%s is imported, and there is no such file", name)
		}
		for _, found := range imported.FindAllSubmatch(part.plain, -1) {
			if err := visit(path.Join(path.Dir(name), string(found[1]))); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
		list = append(list, name)
		return nil
	}
	err := visit(entryModule)
	return slices.Clip(list), err
}
