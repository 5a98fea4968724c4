package hazards

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

// ours are the files of this package that are no tests.
func ours(t *testing.T) map[string]*ast.File {
	t.Helper()
	packages, err := parser.ParseDir(token.NewFileSet(), ".", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	if err != nil {
		t.Fatal(err)
	}
	return packages["hazards"].Files
}

// No sentence of a language stands in the checks: they give codes and quantities, and
// package words makes sentences of them, which they do not even import. Errors about
// bad input are no findings and may have words; so may the messages about layers, which
// are worded as those of their reader are: the hint about swapped coordinates, and the
// name of the layer that travels with a plan.
func TestTheChecksHaveNoWords(t *testing.T) {
	const mayHint, planLayer = "routehints.go", "the plan"
	for name, file := range ours(t) {
		errors := map[ast.Expr]bool{}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ImportSpec:
				if n.Path.Value == `"keelroom/hazards/words"` {
					t.Errorf("%s imports the words", name)
				}
			case *ast.CallExpr:
				if f, ok := n.Fun.(*ast.SelectorExpr); ok && f.Sel.Name == "Errorf" {
					for _, arg := range n.Args {
						errors[arg] = true
					}
				}
			case *ast.BasicLit:
				text, _ := strconv.Unquote(n.Value)
				if n.Kind == token.STRING && strings.Contains(strings.TrimSpace(text), " ") && !errors[n] && name != mayHint && text != planLayer {
					t.Errorf("%s has the words %q", name, text)
				}
			}
			return true
		})
	}
}

// Facts are compared, and so all of them can be: no slice, map or function is in them.
// Those that stand for several findings are made last and compared by nobody.
func TestFactsCanBeCompared(t *testing.T) {
	demo := demoChart(t)
	kinds := map[reflect.Type]bool{}
	look := func(r *plan.Report) {
		for i := range r.Findings {
			f := r.Findings[i].Facts
			kinds[reflect.TypeOf(f)] = true
			if reflect.TypeOf(f).Kind() != reflect.Struct || !reflect.ValueOf(f).Comparable() {
				t.Errorf("%T cannot be compared", f)
			}
		}
	}
	for _, p := range wanderings(t, demo, 20) {
		look(mustCheck(t, demo, p))
	}
	legal := legalGeometries(t)
	for _, p := range everyClass {
		f := decoded(t, p.class, p.attributes, shapeOff(legal[p.class][0], 0.5))
		look(mustCheck(t, set(buoyage(1, 90), f), day()))
	}
	if len(kinds) < 10 {
		t.Errorf("only %d kinds of facts were met", len(kinds))
	}
}
