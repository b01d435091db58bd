package design

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"costrel/unit"
)

var update = flag.Bool("update", false, "write the expected messages of testdata/broken anew")

// Each broken design gives all its faults at once, word for word.
func TestBroken(t *testing.T) {
	files, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil || len(files) < 30 {
		t.Fatalf("%d broken designs, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			doc, err := Load(filepath.Base(file), string(text))
			if err == nil {
				t.Fatalf("it loads; warnings: %v", doc.Warnings)
			}
			var faults Faults
			if !errors.As(err, &faults) {
				t.Fatalf("the error is a %T", err)
			}
			sound(t, string(text), faults)
			got := unit.Spell(faults.Error(), unit.EU) + "\n"
			golden := strings.TrimSuffix(file, ".yaml") + ".want"
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("messages changed (-want +got):\n%s", diff)
			}
		})
	}
}

// sound checks what holds for every list of faults: sorted, each with its
// place inside the text, a message, and an excerpt that shows the place.
func sound(tb testing.TB, text string, faults Faults) {
	tb.Helper()
	lines := strings.Split(text, "\n")
	if len(faults) == 0 {
		tb.Error("an error without faults")
	}
	for i, f := range faults {
		if i > 0 && (f.Line < faults[i-1].Line || f.Line == faults[i-1].Line && f.Column < faults[i-1].Column) {
			tb.Errorf("fault %d is out of order: %v", i, f)
		}
		if f.Message == "" {
			tb.Errorf("fault %d has no message", i)
		}
		if f.Line == 0 && f.Column == 0 && len(text) > MaxBytes {
			continue
		}
		if f.Line < 1 || f.Line > len(lines) || f.Column < 1 || f.Column > len([]rune(lines[f.Line-1]))+1 {
			tb.Errorf("fault %d has no place in the text: %d:%d %s", i, f.Line, f.Column, f.Message)
		}
	}
}

// No line of a fault grows with the document.
func TestLongLines(t *testing.T) {
	long := strings.Repeat("x", 5000)
	for _, rest := range []string{
		long + ": 3\n",
		"resin: {grade: " + long + "}\n",
		"finish: {type: " + long + "}\n",
		"blow: {law: " + long + "}\n",
		"bottle: {height: " + long + "}\n",
		"bottle: {" + strings.Repeat(" ", 5000) + "wal: 3 mm}\n",
		"bottle: {base: {type: " + long + "}, planes: [" + long + ", 3 mm]}\n",
		"limits:\n  - {figure: " + long + ", side: " + long + ", value: " + long + "}\n",
		long + ": \"" + long + "\n",
	} {
		_, err := Load("long.yaml", minimal("csd-1500")+rest)
		if err == nil {
			t.Errorf("%.40q loads", rest)
			continue
		}
		for _, line := range strings.Split(err.Error(), "\n") {
			if len(line) > 700 {
				t.Errorf("%.40q: a line of %d bytes: %.200s", rest, len(line), line)
			}
		}
	}
}
