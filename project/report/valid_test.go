package report

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design"
	"costrel/project/run"
	"costrel/unit"
)

// Every computed figure says where its method holds, in the reader's units.
func TestEveryFigureSaysWhereItHolds(t *testing.T) {
	for _, name := range []string{"sorrel-lime.yaml", "wrenhollow.yaml"} {
		b, err := os.ReadFile(filepath.Join("..", "..", "examples", name))
		if err != nil {
			t.Fatal(err)
		}
		doc, err := design.Load(name, string(b))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range NewBoard(run.Check(doc, nil), unit.US).Figures {
			if (f.Origin.Kind == string(figure.Computed)) != (f.Origin.Valid != "") || strings.ContainsAny(f.Origin.Valid, "‹›") || strings.Contains(f.Origin.Valid, "°C") {
				t.Errorf("%s %s, %s: %q", name, f.Key, f.Origin.Kind, f.Origin.Valid)
			}
		}
	}
	pages, err := filepath.Glob("../../docs/theory/*.md")
	if err != nil || len(pages) == 0 {
		t.Fatal(err)
	}
	for page := range validPages {
		if _, err := os.Stat("../../docs/theory/" + page + ".md"); err != nil {
			t.Error(err)
		}
	}
}
