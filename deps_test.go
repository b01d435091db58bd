package costrel

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// shelves in order: a package imports only from shelves before its own, or
// from its own where inside is true. The list is the architecture.
var shelves = []struct {
	name   string
	paths  []string // folders; a package belongs to the longest that fits
	inside bool     // whether packages of the shelf may import each other
	why    string
}{
	{"unit", []string{"unit"}, false, "quantities stand above everything"},
	{"cite", []string{"cite"}, false, "a source knows no physics"},
	{"cite/citetest", []string{"cite/citetest"}, false, "what tests ask of published checks"},
	{"figure", []string{"figure"}, false, "a number with origin knows no physics"},
	{"num", []string{"num"}, true, "algorithms know no bottle"},
	{"physics nouns", []string{"physics/resin", "physics/drink", "physics/finish", "physics/closure", "physics/bottle", "physics/preform", "physics/climate"}, false, "a noun knows no other noun; numbers are passed between them"},
	{"physics solvers", []string{"physics/inject", "physics/oven", "physics/drawdown", "physics/blow", "physics/shell", "physics/permeation", "physics/hotfill", "physics/capping", "physics/impact", "physics/base"}, false, "a solver imports nouns, never another solver; project/run hands results on"},
	{"plant/tally", []string{"plant/tally"}, false, "adds lines of quantity and rate; knows no bottle"},
	{"plant", []string{"plant"}, false, "money and energy know the physics, not the other way round"},
	{"quality", []string{"quality"}, true, "limits and statistics"},
	{"project/design", []string{"project/design"}, true, "the document"},
	{"project/run", []string{"project/run"}, false, "wiring"},
	{"project", []string{"project"}, true, "studies, calibration, reports"},
	{"export", []string{"export"}, false, "file formats"},
	{"store", []string{"store"}, true, "the only place with SQL"},
	{"verify", []string{"verify"}, false, "the table of checks"},
	{"web", []string{"web"}, true, "the only place with HTTP"},
	{"cmd", []string{"cmd"}, false, "flags, environment, wiring"},
}

func shelfOf(pkg string) int {
	best, length := -1, -1
	for i, s := range shelves {
		for _, p := range s.paths {
			if (pkg == p || strings.HasPrefix(pkg, p+"/")) && len(p) > length {
				best, length = i, len(p)
			}
		}
	}
	return best
}

// only lists what may be imported in few places only.
var only = map[string][]string{
	"net/http":                         {"web", "cmd"},
	"database/sql":                     {"store"},
	"costrel/cite/citetest":            {}, // tests only
	"costrel/num/numtest":              {}, // tests only
	"costrel/web/api/apitest":          {}, // tests only
	"math/rand":                        {},
	"math/rand/v2":                     {},
	"os":                               {"store", "cmd", "web"},
	"github.com/alecthomas/kong":       {"cmd"},
	"github.com/danielgtaylor/huma/v2": {"web"},
	"github.com/goccy/go-yaml":         {"project/design"},
	"github.com/pressly/goose/v3":      {"store"},
	"modernc.org/sqlite":               {"store"},
}

// TestShelves holds every import of the project against the order of the
// shelves. Test files may import what they like.
func TestShelves(t *testing.T) {
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name := d.Name(); name == "node_modules" || name == "testdata" || strings.HasPrefix(name, ".") && name != "." {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		pkg := filepath.ToSlash(filepath.Dir(path))
		if pkg == "." {
			return nil
		}
		mine := shelfOf(pkg)
		if mine < 0 {
			t.Errorf("%s: the folder %s stands on no shelf; add it to deps_test.go and ARCHITECTURE.md", path, pkg)
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range f.Imports {
			imp, _ := strconv.Unquote(spec.Path.Value)
			for lib, where := range only {
				if imp == lib || strings.HasPrefix(imp, lib+"/") && strings.Contains(lib, ".") {
					ok := false
					for _, w := range where {
						ok = ok || shelves[mine].name == w || strings.HasPrefix(pkg, w+"/") || pkg == w
					}
					if !ok {
						t.Errorf("%s imports %s, which belongs to %v only", path, imp, where)
					}
				}
			}
			rest, ours := strings.CutPrefix(imp, "costrel/")
			if !ours {
				continue
			}
			theirs := shelfOf(rest)
			switch {
			case theirs > mine:
				t.Errorf("%s imports %s: %s stands below %s. Reason: %s", path, imp, shelves[theirs].name, shelves[mine].name, shelves[mine].why)
			case theirs == mine && rest != pkg && !shelves[mine].inside:
				t.Errorf("%s imports %s: packages of the shelf %s do not import each other. Reason: %s", path, imp, shelves[mine].name, shelves[mine].why)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
