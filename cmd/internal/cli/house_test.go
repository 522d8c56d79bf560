package cli

import (
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

// room is a package of the house: why it exists and which of our packages it
// may import. Data flows one way: what is listed under may not import back.
type room struct {
	why string
	may string
}

// house is the whole of it. A package that is not here fails the test.
func house() map[string]room {
	const results = "loads/units loads/clock loads/steps loads/inventory loads"
	return map[string]room{
		"loads/units":     {"quantities, their reading, printing and conversion", ""},
		"loads/clock":     {"times of day and windows across midnight", ""},
		"loads/steps":     {"worked steps and the list of sources", "loads/units"},
		"loads/abreast":   {"pieces of work side by side", ""},
		"loads/inventory": {"the file as typed values, with every problem it has", "loads/units loads/clock"},
		"loads":           {"what each item draws, at which voltages, when", "loads/units loads/clock loads/steps loads/inventory"},
		"loads/anysite":   {"random whole sites that properties are tried on; imported by tests only", ""},
		"loads/air":       {"moist air", "loads/units loads/steps"},
		"loads/heat":      {"sensible and latent balance of a room by hour", results + " loads/air"},
		"loads/day":       {"24 hours of power, energy and cost", results + " loads/heat"},

		"codes":           {"vocabulary of rules: profile, table, fact, verdict, finding", "loads/units loads/clock loads/steps"},
		"codes/checks":    {"checks that families ask alike", "codes loads/units"},
		"codes/nec":       {"one family of codes: tables, rules, editions", "codes codes/checks codes/practice loads/units loads/clock loads/steps"},
		"codes/cec":       {"another family", "codes codes/checks codes/practice loads/units loads/clock loads/steps"},
		"codes/practice":  {"good practice without a clause", "codes loads/units loads/steps"},
		"codes/book":      {"the shelf: profiles by name", "codes codes/nec codes/cec codes/practice"},
		"codes/published": {"outside values that tests compare with, and what was computed beside them", "loads/units loads/steps"},
		"codes/outside":   {"what tests use to compare with published values and reference tools, and write down how far apart they are", "loads/units codes/published"},

		"testdata/published": {"the published cases, and what the tests computed for them, as files", ""},

		"circuits":           {"the plan as a plain value", results + " codes"},
		"circuits/packing":   {"optimisation on integers; knows no electricity", ""},
		"circuits/conductor": {"ampacity, derating, voltage drop, grounding, raceway", "loads/units loads/steps codes"},
		"circuits/panel":     {"spaces, legs, phasors, balance", "loads/units loads/steps loads/inventory circuits circuits/packing"},
		"circuits/judge":     {"builds facts from a plan and asks the rules", results + " loads/heat codes circuits circuits/panel circuits/conductor"},
		"circuits/assign":    {"decides", results + " loads/abreast codes circuits circuits/packing circuits/conductor circuits/panel circuits/judge"},
		"circuits/verify":    {"re-derives a plan by another road; shares no code with what decided it", "loads/units loads/clock loads/steps loads/inventory loads codes circuits"},

		"cmd/internal/document":          {"results as one value: the JSON contract", results + " loads/heat loads/day codes codes/published circuits testdata/published"},
		"cmd/internal/render/page":       {"a document as blocks: words, rounding, unit system", "loads/units cmd/internal/document"},
		"cmd/internal/render/terminal":   {"a page on a screen", "cmd/internal/render/page"},
		"cmd/internal/render/markdown":   {"a page or a report as Markdown", "cmd/internal/render/page cmd/internal/render/handover"},
		"cmd/internal/render/csv":        {"a page or a report as comma-separated values", "cmd/internal/render/page cmd/internal/render/handover"},
		"cmd/internal/render/json":       {"a document as it is", ""},
		"cmd/internal/render/svg":        {"drawings of a report", "loads/units cmd/internal/document"},
		"cmd/internal/render/handover":   {"a report as sections of blocks: words, rounding, links, unit system", "loads/units cmd/internal/document cmd/internal/render/svg"},
		"cmd/internal/render/html":       {"a report as one page", "cmd/internal/document cmd/internal/render/svg cmd/internal/render/handover cmd/internal/render/page"},
		"cmd/internal/render/xlsx":       {"a report as a workbook", "cmd/internal/render/handover cmd/internal/render/xlsx/ooxml"},
		"cmd/internal/render/xlsx/ooxml": {"a workbook as a file", ""},
		"cmd/internal/live":              {"a page served to this machine that follows its file", ""},
		"cmd/internal/cli": {"commands, streams, exit statuses", results + " loads/abreast loads/heat loads/day codes codes/book circuits circuits/conductor circuits/assign circuits/judge circuits/verify" +
			" cmd/internal/document cmd/internal/render/page cmd/internal/render/terminal cmd/internal/render/markdown cmd/internal/render/csv cmd/internal/render/json cmd/internal/render/svg cmd/internal/render/handover cmd/internal/render/html cmd/internal/render/xlsx cmd/internal/live"},
		"cmd/branchwork": {"one line of work", "cmd/internal/cli"},
	}
}

// long are the files that may have more than mostLines lines, each with its reason.
func long() map[string]string { return map[string]string{} }

const mostLines = 400

// source is a Go file of the project.
type source struct {
	dir, name string
	text      string
	file      *ast.File
}

func (s source) test() bool { return strings.HasSuffix(s.name, "_test.go") }

func (s source) path() string { return path.Join(s.dir, s.name) }

func sourcesOf(t *testing.T) []source {
	var out []source
	err := filepath.WalkDir(top, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(top, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		if d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && rel != ".") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") {
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		out = append(out, source{path.Dir(rel), path.Base(rel), string(text), file})
		return nil
	})
	require.NoError(t, err)
	require.NotEmpty(t, out)
	return out
}

func TestPackagesImportOnlyWhatTheHouseAllows(t *testing.T) {
	rooms := house()
	for _, s := range sourcesOf(t) {
		r, ok := rooms[s.dir]
		if !ok {
			t.Errorf("%s: the package %q is not in the house; add it with its reason", s.path(), s.dir)
			continue
		}
		if s.test() {
			continue
		}
		for _, imported := range s.file.Imports {
			name, err := strconv.Unquote(imported.Path.Value)
			require.NoError(t, err)
			ours, is := strings.CutPrefix(name, "branchwork/")
			if is && !slices.Contains(strings.Fields(r.may), ours) {
				t.Errorf("%s imports %s; %s may import: %s", s.path(), ours, s.dir, r.may)
			}
		}
	}
}

func TestHouseIsInOrder(t *testing.T) {
	rooms := house()
	for name, r := range rooms {
		require.NotEmpty(t, r.why, name)
		for _, m := range strings.Fields(r.may) {
			require.Contains(t, rooms, m, "%s may import a package that does not exist", name)
			require.NotContains(t, strings.Fields(rooms[m].may), name, "%s and %s import each other", name, m)
		}
	}
}

func TestFilesStayShort(t *testing.T) {
	for _, s := range sourcesOf(t) {
		n := strings.Count(s.text, "\n")
		if n > mostLines && long()[s.path()] == "" && !ast.IsGenerated(s.file) {
			t.Errorf("%s has %d lines, more than %d; split it, or name it here with the reason", s.path(), n, mostLines)
		}
	}
}

func TestNoInitAndNoVariableState(t *testing.T) {
	for _, s := range sourcesOf(t) {
		if s.test() {
			continue
		}
		for _, d := range s.file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Recv == nil && d.Name.Name == "init" {
					t.Errorf("%s: init() hides when things happen; call a function", s.path())
				}
			case *ast.GenDecl:
				if d.Tok == token.VAR {
					for _, spec := range d.Specs {
						v := spec.(*ast.ValueSpec)
						if !constant(v, d.Doc) {
							t.Errorf("%s: %s is a package-level variable that is not a constant in spirit", s.path(), v.Names[0].Name)
						}
					}
				}
			}
		}
	}
}

// constant reports whether a package-level variable never changes in spirit: an
// embedded file, an error, a compiled expression, a list, a record, or what one
// function read of them.
func constant(v *ast.ValueSpec, doc *ast.CommentGroup) bool {
	if doc != nil && slices.ContainsFunc(doc.List, func(c *ast.Comment) bool { return strings.HasPrefix(c.Text, "//go:embed ") }) {
		return true
	}
	if len(v.Values) == 0 {
		return false
	}
	return !slices.ContainsFunc(v.Values, func(e ast.Expr) bool { return !fixed(e) })
}

func fixed(e ast.Expr) bool {
	switch x := e.(type) {
	case *ast.CompositeLit, *ast.FuncLit, *ast.BasicLit, *ast.SelectorExpr, *ast.Ident:
		return true
	case *ast.BinaryExpr:
		return fixed(x.X) && fixed(x.Y)
	case *ast.CallExpr:
		return fixedCall(x)
	}
	return false
}

// fixedCall allows a call that makes a value once: an error, an expression, a
// value read from embedded text, a list from a function of the same package.
func fixedCall(c *ast.CallExpr) bool {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return f.Name != "make" && f.Name != "new"
	case *ast.SelectorExpr:
		pkg, ok := f.X.(*ast.Ident)
		if ok && pkg.Name == "sync" { // read when it is first wanted, the same for all
			return f.Sel.Name == "OnceValue"
		}
		return ok && slices.Contains([]string{"errors", "fmt", "regexp", "strings", "codes", "steps", "units", "template"}, pkg.Name)
	}
	return false
}
