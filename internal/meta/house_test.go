package meta_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/testkit"
)

// tracked lists the files git knows or would add, relative to the root.
func tracked(t *testing.T) []string {
	t.Helper()
	cmd := exec.Command("git", "ls-files", "--cached", "--others", "--exclude-standard")
	cmd.Dir = testkit.Root(t)
	out, err := cmd.Output()
	if err != nil {
		t.Skip("no git checkout here, so there is no list of files to hold the rules against")
	}
	files := []string{}
	for _, name := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		if _, err := os.Stat(filepath.Join(cmd.Dir, name)); err == nil {
			files = append(files, name)
		}
	}
	return files
}

func TestTopLevel(t *testing.T) {
	allowed := strings.Fields("README.md DEVELOPERS.md go.mod go.sum main.go server assets wasm internal testdata Makefile")
	for _, file := range tracked(t) {
		top, _, _ := strings.Cut(file, "/")
		if !strings.HasPrefix(top, ".") {
			assert.Contains(t, allowed, top)
		}
	}
}

// Limits on size keep files small enough to read in one sitting.
func TestFileSizes(t *testing.T) {
	root := testkit.Root(t)
	for _, file := range tracked(t) {
		limit := 0
		switch {
		case strings.HasSuffix(file, "_test.go"):
			limit = 800
		case strings.HasSuffix(file, ".go"):
			limit = 600
		case strings.HasSuffix(file, ".js") && !strings.Contains(file, "/words/"):
			limit = 300
		case strings.HasSuffix(file, ".css"):
			limit = 250
		}
		if limit == 0 {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root, file))
		require.NoError(t, err)
		assert.LessOrEqual(t, strings.Count(string(text), "\n"), limit, file)
	}
}

// eachGoFile parses every Go file that is no test.
func eachGoFile(t *testing.T, visit func(path string, set *token.FileSet, file *ast.File)) {
	t.Helper()
	for _, path := range tracked(t) {
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, filepath.Join(testkit.Root(t), path), nil, parser.ParseComments)
		require.NoError(t, err)
		visit(path, set, file)
	}
}

func TestFunctions_areShort(t *testing.T) {
	eachGoFile(t, func(path string, set *token.FileSet, file *ast.File) {
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil {
				lines := set.Position(f.End()).Line - set.Position(f.Pos()).Line
				assert.LessOrEqual(t, lines, 100, "%s: %s", path, f.Name.Name)
			}
		}
	})
}

func TestExportedNames_areDocumented(t *testing.T) {
	packageDocs := map[string]bool{}
	eachGoFile(t, func(path string, _ *token.FileSet, file *ast.File) {
		dir := filepath.Dir(path)
		packageDocs[dir] = packageDocs[dir] || file.Doc != nil
		for _, d := range file.Decls {
			for _, name := range undocumented(d) {
				assert.Fail(t, "no doc comment", "%s: %s", path, name)
			}
		}
	})
	for dir, documented := range packageDocs {
		assert.True(t, documented, "package %s has no doc comment", dir)
	}
}

// undocumented returns the exported names of a declaration that lack a comment.
// Names in a commented group need none of their own.
func undocumented(d ast.Decl) []string {
	names := []string{}
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Name.IsExported() && d.Doc == nil && exportedReceiver(d) {
			names = append(names, d.Name.Name)
		}
	case *ast.GenDecl:
		if d.Doc != nil {
			return nil
		}
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				if s.Name.IsExported() && s.Doc == nil {
					names = append(names, s.Name.Name)
				}
			case *ast.ValueSpec:
				if s.Names[0].IsExported() && s.Doc == nil && s.Comment == nil {
					names = append(names, s.Names[0].Name)
				}
			}
		}
	}
	return names
}

func exportedReceiver(f *ast.FuncDecl) bool {
	if f.Recv == nil {
		return true
	}
	kind := f.Recv.List[0].Type
	if star, ok := kind.(*ast.StarExpr); ok {
		kind = star.X
	}
	name, ok := kind.(*ast.Ident)
	return ok && name.IsExported()
}

// Time, randomness and ids are arguments in internal/, so that every result can
// be had again.
func TestInternal_isDeterministic(t *testing.T) {
	eachGoFile(t, func(path string, _ *token.FileSet, file *ast.File) {
		if !strings.HasPrefix(path, "internal/") || strings.HasPrefix(path, "internal/tools/") {
			return
		}
		ast.Inspect(file, func(n ast.Node) bool {
			s, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if from, ok := s.X.(*ast.Ident); ok {
				call := from.Name + "." + s.Sel.Name
				assert.NotContains(t, []string{"time.Now", "time.Since", "time.After", "rand.Int", "rand.Float64", "rand.IntN", "rand.Read"}, call, path)
			}
			return true
		})
	})
}
