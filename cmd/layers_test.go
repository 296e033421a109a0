package cmd

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// listed is what go list says about a package.
type listed struct {
	ImportPath, Name, Dir string
	Imports, Deps         []string
	GoFiles               []string
}

// packages are the module's own packages.
func packages(t *testing.T) []listed {
	t.Helper()
	command := exec.Command("go", "list", "-json=ImportPath,Name,Dir,Imports,Deps,GoFiles", "./...")
	command.Dir = ".."
	command.Stderr = os.Stderr
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []listed
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	if len(all) < 20 {
		t.Fatalf("go list found %d packages only", len(all))
	}
	return all
}

// layers are the top-level folders, each of which may import itself and those
// after it.
var layers = []string{"cmd", "templates", "sheet", "estimate"}

// layer is the place of a package among the layers; -1 for one that is not the
// module's.
func layer(path string) int {
	rest, own := strings.CutPrefix(path, "laybill/")
	if !own {
		return -1
	}
	top, _, _ := strings.Cut(rest, "/")
	return slices.Index(layers, top)
}

func within(path string, folders ...string) bool {
	return slices.ContainsFunc(folders, func(folder string) bool {
		return path == "laybill/"+folder || strings.HasPrefix(path, "laybill/"+folder+"/")
	})
}

func TestImportsGoOneWay(t *testing.T) {
	for _, p := range packages(t) {
		if layer(p.ImportPath) < 0 {
			t.Errorf("%s stands in none of the folders %v", p.ImportPath, layers)
		}
		for _, imported := range p.Imports {
			if to := layer(imported); to >= 0 && to < layer(p.ImportPath) {
				t.Errorf("%s imports %s, which is the wrong way", p.ImportPath, imported)
			}
		}
	}
}

// forTests is the package that only tests import.
const forTests = "laybill/estimate/published"

// Each library is known to few packages; estimate only thinks; proof shares
// nothing with what it proves.
func TestImportsAreKnownToFew(t *testing.T) {
	only := []struct {
		imported string
		folders  []string
	}{
		{"github.com/xuri/excelize/v2", []string{"sheet/in", "sheet/form", "sheet/out"}},
		{"codeberg.org/go-pdf/fpdf", []string{"sheet/draw", "sheet/booklet"}},
		{"github.com/go-text/typesetting/harfbuzz", []string{"sheet/draw"}},
		{"github.com/spf13/cobra", []string{"cmd"}},
		{"golang.org/x/term", []string{"cmd/internal/term"}},
		{"os/signal", []string{"cmd"}},
		{"os", []string{"cmd"}},
		{"log", nil}, {"log/slog", nil}, {"net", nil}, {"net/http", nil}, {"math/rand", nil},
	}
	for _, p := range packages(t) {
		if slices.Contains(p.Deps, forTests) {
			t.Errorf("%s depends on %s, which only tests may", p.ImportPath, forTests)
		}
		if p.ImportPath == forTests {
			continue
		}
		for _, rule := range only {
			if slices.Contains(p.Imports, rule.imported) && !within(p.ImportPath, rule.folders...) {
				t.Errorf("%s imports %s, which only %v may", p.ImportPath, rule.imported, rule.folders)
			}
		}
		if within(p.ImportPath, "estimate/proof") {
			for _, other := range []string{"layout", "trim", "cutting", "price", "purchase", "labour", "quantity", "shape"} {
				if slices.Contains(p.Deps, "laybill/estimate/"+other) {
					t.Errorf("%s depends on %s, which it is to prove", p.ImportPath, other)
				}
			}
		}
	}
}

// A name says what is inside.
func TestNoCatchAllPackages(t *testing.T) {
	banned := []string{"util", "utils", "common", "helper", "helpers", "types", "model", "models", "manager", "misc", "base"}
	for _, p := range packages(t) {
		if slices.Contains(banned, p.Name) {
			t.Errorf("package %s says nothing about its contents", p.ImportPath)
		}
	}
}

// Only cmd reads the clock.
func TestOnlyCmdReadsTheClock(t *testing.T) {
	clock := []string{"Now", "Since", "Until", "After", "Tick", "NewTimer", "NewTicker", "AfterFunc", "Sleep"}
	for _, p := range packages(t) {
		if within(p.ImportPath, "cmd") {
			continue
		}
		for _, name := range p.GoFiles {
			files := token.NewFileSet()
			file, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				selector, ok := n.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				if from, ok := selector.X.(*ast.Ident); ok && from.Name == "time" && slices.Contains(clock, selector.Sel.Name) {
					t.Errorf("%s: time.%s", files.Position(selector.Pos()), selector.Sel.Name)
				}
				return true
			})
		}
	}
}
