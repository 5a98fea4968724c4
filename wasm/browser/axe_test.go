//go:build !js

package browser

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"

	"github.com/chromedp/cdproto/runtime"
)

// axeScript is the source of axe-core, which npm fetches once as the lock file
// says.
var axeScript = sync.OnceValues(func() (string, error) {
	folder := filepath.Join(root, "testdata", "npm", "axe")
	file := filepath.Join(folder, "node_modules", "axe-core", "axe.min.js")
	if !installed(folder) {
		if out, err := exec.Command("npm", "ci", "--silent", "--ignore-scripts", "--prefix", folder).CombinedOutput(); err != nil {
			return "", fmt.Errorf("npm ci for axe-core: %w\n%s", err, out)
		}
	}
	source, err := os.ReadFile(file)
	return string(source), err
})

// installed says whether the version that the lock file wants is there.
func installed(folder string) bool {
	var lock struct {
		Packages map[string]struct {
			Version string `json:"version"`
		} `json:"packages"`
	}
	var there struct {
		Version string `json:"version"`
	}
	const name = "node_modules/axe-core"
	return readJSON(filepath.Join(folder, "package-lock.json"), &lock) == nil &&
		readJSON(filepath.Join(folder, name, "package.json"), &there) == nil &&
		there.Version == lock.Packages[name].Version
}

func readJSON(path string, into any) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	return json.Unmarshal(data, into)
}

// violation is a rule of axe-core that the page breaks.
type violation struct {
	ID     string `json:"id"`
	Impact string `json:"impact"`
	Help   string `json:"help"`
	Nodes  []struct {
		HTML string `json:"html"`
		Why  string `json:"failureSummary"`
	} `json:"nodes"`
}

func (v violation) String() string {
	var s strings.Builder
	fmt.Fprintf(&s, "%s (%s): %s", v.ID, v.Impact, v.Help)
	for _, n := range v.Nodes {
		fmt.Fprintf(&s, "\n  %s\n    %s", n.HTML, squeeze(n.Why))
	}
	return s.String()
}

// accessible fails the test for every serious or critical rule of axe-core that
// the page breaks as it is now.
func (p *tab) accessible() {
	p.t.Helper()
	p.noneSerious(p.violations())
}

// readable is accessible for what depends on the colours alone.
func (p *tab) readable() {
	p.t.Helper()
	p.noneSerious(p.violations("color-contrast"))
}

func (p *tab) noneSerious(broken []violation) {
	p.t.Helper()
	for _, v := range broken {
		if v.Impact == "serious" || v.Impact == "critical" {
			p.t.Errorf("%d by %d: %s", p.view.wide, p.view.high, v)
		}
	}
}

// violations has axe-core look at the page, by the rules that are named or by
// all. The script comes by the debugger, which the page's policy does not bind.
func (p *tab) violations(rules ...string) (broken []violation) {
	p.t.Helper()
	source, err := axeScript()
	if err != nil {
		p.t.Fatal(err)
	}
	if !read[bool](p, `typeof axe === "object"`) {
		p.run(source + ";0")
	}
	options := map[string]any{"resultTypes": []string{"violations"}}
	if len(rules) > 0 {
		options["runOnly"] = rules
	}
	text, err := json.Marshal(options)
	if err != nil {
		p.t.Fatal(err)
	}
	found := p.run(fmt.Sprintf(`axe.run(document, %s).then((r) => r.violations)`, text))
	if err := json.Unmarshal(found, &broken); err != nil {
		p.t.Fatalf("axe-core answers what cannot be read: %v", err)
	}
	return broken
}

// run evaluates a script in the page and waits for what it promises.
func (p *tab) run(script string) []byte {
	p.t.Helper()
	yes := true
	r := call(p, runtime.Evaluate, runtime.EvaluateParams{Expression: script, AwaitPromise: &yes, ReturnByValue: &yes})
	if r.ExceptionDetails != nil {
		p.t.Fatal(exceptionWords(r.ExceptionDetails))
	}
	return r.Result.Value
}
