package steps_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/steps"
)

const top = "../.."

// cites gathers where each key of a source is cited.
type cites map[string][]string

func (c cites) add(key, where string) { c[key] = append(c[key], where) }

// walk calls visit for every file of the project with an ending.
func walk(t *testing.T, ending string, visit func(name string, text []byte)) {
	require.NoError(t, filepath.WalkDir(top, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && strings.HasPrefix(d.Name(), ".") && name != top {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ending) {
			return nil
		}
		text, err := os.ReadFile(name)
		if err == nil {
			visit(filepath.ToSlash(strings.TrimPrefix(name, top+string(filepath.Separator))), text)
		}
		return err
	}))
}

// inData gathers what tables and published cases cite: the keys ref and from,
// however deep they stand.
func inData(t *testing.T) cites {
	out := cites{}
	var visit func(where string, x any)
	visit = func(where string, x any) {
		switch x := x.(type) {
		case map[string]any:
			for k, v := range x {
				if key, ok := v.(string); ok && k == "ref" {
					out.add(key, where)
				}
				if list, ok := v.([]any); ok && k == "from" {
					for _, key := range list {
						out.add(key.(string), where)
					}
				}
				visit(where, v)
			}
		case []map[string]any:
			for _, v := range x {
				visit(where, v)
			}
		case []any:
			for _, v := range x {
				visit(where, v)
			}
		}
	}
	walk(t, ".toml", func(name string, text []byte) {
		if !strings.HasPrefix(name, "codes/") && !strings.HasPrefix(name, "testdata/published/") {
			return
		}
		doc := map[string]any{}
		_, err := toml.Decode(string(text), &doc)
		require.NoError(t, err, name)
		visit(name, doc)
	})
	return out
}

// goFile is a parsed source of a package.
type goFile struct {
	name string
	file *ast.File
}

func sources(t *testing.T) map[string][]goFile {
	out := map[string][]goFile{}
	walk(t, ".go", func(name string, text []byte) {
		if strings.HasSuffix(name, "_test.go") {
			return
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
		require.NoError(t, err)
		dir := filepath.Dir(name)
		out[dir] = append(out[dir], goFile{name, f})
	})
	return out
}

// inSources gathers what Go sources cite: the field Ref of a literal, and the
// argument of a function whose parameter is called ref, written out or as a
// constant of the package.
func inSources(t *testing.T) cites {
	out := cites{}
	packages := sources(t)
	takesRef := map[string]int{} // function of a package: index of its parameter ref
	for _, files := range packages {
		for _, f := range files {
			for _, d := range f.file.Decls {
				if fn, ok := d.(*ast.FuncDecl); ok {
					if i := refParameter(fn.Type); i >= 0 {
						takesRef[f.file.Name.Name+"."+fn.Name.Name] = i
					}
				}
			}
		}
	}
	for _, files := range packages {
		constants := stringConstants(files)
		for _, f := range files {
			cite := func(e ast.Expr) {
				switch e := e.(type) {
				case *ast.BasicLit:
					key, err := strconv.Unquote(e.Value)
					require.NoError(t, err)
					out.add(key, f.name)
				case *ast.Ident:
					if key, ok := constants[e.Name]; ok {
						out.add(key, f.name)
					}
				}
			}
			ast.Inspect(f.file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.KeyValueExpr:
					if k, ok := n.Key.(*ast.Ident); ok && k.Name == "Ref" {
						cite(n.Value)
					}
				case *ast.CallExpr:
					if i, ok := takesRef[called(f.file.Name.Name, n)]; ok && i < len(n.Args) {
						cite(n.Args[i])
					}
				}
				return true
			})
		}
	}
	return out
}

// refParameter returns the index of a function's string parameter ref, -1 where
// it has none.
func refParameter(fn *ast.FuncType) int {
	i := 0
	for _, field := range fn.Params.List {
		for _, name := range field.Names {
			if name.Name == "ref" {
				return i
			}
			i++
		}
	}
	return -1
}

// called names the function that a call in a package calls.
func called(pkg string, c *ast.CallExpr) string {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return pkg + "." + f.Name
	case *ast.SelectorExpr:
		if of, ok := f.X.(*ast.Ident); ok {
			return of.Name + "." + f.Sel.Name
		}
	}
	return ""
}

func stringConstants(files []goFile) map[string]string {
	out := map[string]string{}
	for _, f := range files {
		ast.Inspect(f.file, func(n ast.Node) bool {
			if v, ok := n.(*ast.ValueSpec); ok {
				for i, x := range v.Values {
					if lit, ok := x.(*ast.BasicLit); ok && lit.Kind == token.STRING && i < len(v.Names) {
						if s, err := strconv.Unquote(lit.Value); err == nil {
							out[v.Names[i].Name] = s
						}
					}
				}
			}
			return true
		})
	}
	return out
}

func TestEveryCitedSourceIsListed(t *testing.T) {
	for what, list := range map[string]cites{"data": inData(t), "sources": inSources(t)} {
		require.Greater(t, len(list), 5, "%s cite something", what)
		for key, where := range list {
			_, ok := steps.Lookup(key)
			assert.True(t, ok, "%q is cited in %s and stands in no list", key, where[0])
		}
	}
}

func TestEveryListedSourceIsCited(t *testing.T) {
	data, code := inData(t), inSources(t)
	for _, r := range steps.References() {
		assert.True(t, len(data[r.Key]) > 0 || len(code[r.Key]) > 0, "nothing cites %q (%s)", r.Key, r.Title)
	}
}

// A reader can find every source: by its title and publisher, or at an address.
func TestEverySourceCanBeFound(t *testing.T) {
	key := regexp.MustCompile(`^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$`)
	list := steps.References()
	require.NotEmpty(t, list)
	for i, r := range list {
		assert.Regexp(t, key, r.Key)
		assert.NotEmpty(t, r.Short, r.Key)
		assert.NotEmpty(t, r.Title, r.Key)
		for _, text := range []string{r.Short, r.Title, r.By, r.URL, r.Note} {
			assert.Equal(t, strings.TrimSpace(text), text, r.Key)
			assert.NotRegexp(t, `(?i)\b(todo|tbd|fixme|xxx)\b`, text, r.Key)
		}
		if r.URL != "" {
			u, err := url.Parse(r.URL)
			require.NoError(t, err, r.Key)
			assert.Contains(t, []string{"http", "https"}, u.Scheme, r.Key)
			assert.NotEmpty(t, u.Host, r.Key)
		}
		if i > 0 {
			assert.Less(t, list[i-1].Key, r.Key, "in order, each once")
		}
		found, ok := steps.Lookup(r.Key)
		assert.True(t, ok)
		assert.Equal(t, r, found)
	}
	_, ok := steps.Lookup("hearsay")
	assert.False(t, ok)
}
