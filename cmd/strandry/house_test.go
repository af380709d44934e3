package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// source is one Go file of the module.
type source struct {
	name    string // from the root, with slashes
	folder  string
	test    bool
	lines   int
	tree    *ast.File
	imports []string
}

const module = "strandry"

func sources(t *testing.T) []source {
	t.Helper()
	root := filepath.Join("..", "..")
	var all []source
	err := filepath.WalkDir(root, func(file string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		base := entry.Name()
		if entry.IsDir() && file != root && (strings.HasPrefix(base, ".") || base == "testdata") {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(base, ".go") {
			return nil
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		tree, err := parser.ParseFile(token.NewFileSet(), file, text, parser.ParseComments)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(root, file)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		s := source{name: name, folder: path.Dir(name), test: strings.HasSuffix(base, "_test.go"), lines: bytes.Count(text, []byte("\n")), tree: tree}
		for _, i := range tree.Imports {
			imported, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			s.imports = append(s.imports, imported)
		}
		all = append(all, s)
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, len(all), 50)
	return all
}

// in tells whether a folder is one or lies inside it.
func in(folder, parent string) bool {
	return folder == parent || strings.HasPrefix(folder, parent+"/")
}

// ours gives the folder of an imported package of this module.
func ours(imported string) (folder string, ok bool) {
	return strings.CutPrefix(imported, module+"/")
}

// The rules of the house, each over every file of the module.
func TestHouse(t *testing.T) {
	all := sources(t)
	for name, rule := range map[string]func(*testing.T, []source){
		"floors": floorsAreKept, "canvas": figuresStandOnTheCanvas, "foreign packages": foreignPackages, "small files": smallFiles,
		"no global state": noGlobalState, "documented": documented,
	} {
		t.Run(name, func(t *testing.T) { rule(t, all) })
	}
}

// Data flow one way: the lower floors know nothing of the upper ones.
func floorsAreKept(t *testing.T, all []source) {
	floors := []string{"materials", "diffusion", "scenarios", "plots", "cmd"}
	floor := func(folder string) int {
		for i, f := range floors {
			if in(folder, f) {
				return i
			}
		}
		t.Fatalf("%s is on no floor", folder)
		return 0
	}
	for _, s := range all {
		for _, imported := range s.imports {
			folder, ok := ours(imported)
			if !ok {
				continue
			}
			require.False(t, in(folder, "cmd"), "%s imports a command", s.name)
			require.LessOrEqual(t, floor(folder), floor(s.folder), "%s imports %s from a floor above", s.name, imported)
			if s.test {
				continue
			}
			mathematics := []string{"materials/exponential", "diffusion/simd", "diffusion/rosenbrock", "diffusion/radial", "diffusion/section", "diffusion/exact", "diffusion/surrogate", "diffusion/sensitivity", "diffusion/estimation"}
			for i, alone := range mathematics {
				below := slices.Contains(mathematics[:i], folder) && alone != "diffusion/exact"
				require.False(t, in(s.folder, alone) && !below, "%s imports %s: the mathematics stands alone", s.name, imported)
			}
		}
	}
}

// Figures stand on moisture as colour, that on the canvas, which knows nothing of what is drawn.
func figuresStandOnTheCanvas(t *testing.T, all []source) {
	steps := []string{"plots/palette", "plots/words", "plots/field", "plots/canvas", "plots/moisture", "plots/figure", "plots/page"}
	for _, s := range all {
		own := slices.Index(steps, s.folder)
		for _, imported := range s.imports {
			folder, ok := ours(imported)
			if own < 0 || !ok {
				continue
			}
			step := slices.Index(steps, folder)
			require.LessOrEqual(t, step, own, "%s imports %s from a step above", s.name, imported)
			bare := own <= slices.Index(steps, "plots/canvas") && step < 0 && folder != "materials/text/quantity" && folder != "diffusion/parallel"
			require.False(t, bare, "%s imports %s, which it is not to know", s.name, imported)
		}
	}
}

// Each foreign package has one place.
func foreignPackages(t *testing.T, all []source) {
	places := map[string][]string{
		"github.com/BurntSushi/toml":        {"materials/text/strict"},
		"gonum.org/v1/plot":                 {"plots/canvas"},
		"github.com/spf13/cobra":            {"cmd"},
		"github.com/spf13/pflag":            {"cmd"},
		"github.com/schollz/progressbar/v3": {"cmd"},
		"git.sr.ht/~sbinet/gg":              {"plots/canvas"}, // what gonum/plot draws with
		"golang.org/x/image":                {"plots/canvas"}, // the same
		"codeberg.org/go-pdf/fpdf":          {"plots/canvas"}, // and what it writes PDF with
		"golang.org/x/term":                 {"cmd"},
		"github.com/gofrs/flock":            {"plots/folder"},
		"gonum.org/v1/gonum":                {"materials", "diffusion", "scenarios", "plots"},
		"golang.org/x/sync":                 {"diffusion"},      // errgroup
		"golang.org/x/sys":                  {"diffusion/simd"}, // what the processor can
		"github.com/stretchr/testify":       nil,                // tests only
	}
	seen := map[string]bool{}
	for _, s := range all {
		for _, imported := range s.imports {
			first, _, _ := strings.Cut(imported, "/")
			if !strings.Contains(first, ".") {
				continue // ours, or of the standard library
			}
			known := false
			for foreign, folders := range places {
				if !in(imported, foreign) {
					continue
				}
				known, seen[foreign] = true, true
				allowed := s.test
				for _, folder := range folders {
					allowed = allowed || in(s.folder, folder)
				}
				require.True(t, allowed, "%s imports %s", s.name, imported)
			}
			require.True(t, known, "%s imports %s, which has no place yet", s.name, imported)
		}
	}
	require.True(t, seen["github.com/BurntSushi/toml"] && seen["github.com/spf13/cobra"])
}

func smallFiles(t *testing.T, all []source) {
	for _, s := range all {
		if !s.test {
			require.LessOrEqual(t, s.lines, 400, s.name)
		}
	}
}

// Tables and texts that are never written to; every other variable of a package
// would join what should be apart.
func readOnly() []string {
	return []string{
		"diffusion/rosenbrock/method.go: rodas",              // a table of coefficients
		"materials/exponential/exponential.go: powers",       // a table of numbers
		"materials/library.go: library",                      // embedded files
		"materials/text/quantity/spelling.go: plainSpelling", // a replacer, safe for goroutines
		"plots/canvas/encode.go: inFixedOrder",               // a switch that is thrown once
		"plots/page/html.go: layout",                         // an embedded text
		"plots/page/markdown.go: markdownLayout",             // an embedded text
		"plots/page/style.go: style",                         // an embedded text
		"scenarios/demo.go: demos",                           // embedded files
		"scenarios/demo.go: template",                        // an embedded text
		"scenarios/weighings.go: weighingsTemplate",          // an embedded text
		"scenarios/validation/measured/load.go: data",        // embedded files
	}
}

func noGlobalState(t *testing.T, all []source) {
	allowed := map[string]bool{}
	for _, name := range readOnly() {
		allowed[name] = false
	}
	for _, s := range all {
		if s.test {
			continue
		}
		for _, d := range s.tree.Decls {
			if f, ok := d.(*ast.FuncDecl); ok {
				require.False(t, f.Recv == nil && f.Name.Name == "init", "%s has an init function", s.name)
			}
			for _, name := range variables(d) {
				full := s.name + ": " + name
				require.Contains(t, allowed, full, "a variable of a package")
				allowed[full] = true
			}
		}
	}
	for name, found := range allowed {
		require.True(t, found, "%s is gone: take it off the list", name)
	}
}

// variables lists the names that a declaration of a package makes variable, but
// neither the blank ones by which the compiler checks a type nor sentinel errors.
func variables(d ast.Decl) []string {
	g, ok := d.(*ast.GenDecl)
	if !ok || g.Tok != token.VAR {
		return nil
	}
	var names []string
	for _, spec := range g.Specs {
		v := spec.(*ast.ValueSpec)
		for i, name := range v.Names {
			if name.Name != "_" && !(i < len(v.Values) && sentinel(name.Name, v.Values[i])) {
				names = append(names, name.Name)
			}
		}
	}
	return names
}

// sentinel tells whether a variable is an error made once to be compared with.
func sentinel(name string, value ast.Expr) bool {
	call, ok := value.(*ast.CallExpr)
	if !ok || !strings.HasPrefix(strings.ToLower(name), "err") {
		return false
	}
	f, ok := call.Fun.(*ast.SelectorExpr)
	return ok && f.Sel.Name == "New"
}

// Every package says what it is in its doc.go; commands say it in main.go.
func documented(t *testing.T, all []source) {
	has := map[string]bool{}
	for _, s := range all {
		if !s.test {
			has[s.folder] = has[s.folder] || s.tree.Doc != nil
		}
	}
	for folder, ok := range has {
		require.True(t, ok, "%s has no package comment", folder)
	}
}
