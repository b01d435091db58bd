package cite

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"

	"github.com/google/go-cmp/cmp"
)

const goodCards = `# two closures
[plain] Plain cap, one piece

mass | mass | mass | 1.8 | 1.7 | 2.0 | g | CommonPractice | medium | from memory
fill | filling temperature | temperature | 20 | 4 | 25 | °C | CommonPractice | low |
starts | thread starts | count | 3 | 1 | 3 | | CommonPractice | high |
lead | lead ratio | ratio | 1.5 | 1 | 2 | - | CommonPractice | high |

[second]
mass | mass | mass | 3 | 3 | 3 | g | SI2019 | high | -
`

func TestParseCards(t *testing.T) {
	got, err := ParseCards("cards.txt", goodCards)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || got[0].Name != "plain" || got[0].Title != "Plain cap, one piece" || got[1].Title != "" || len(got[0].Data) != 4 {
		t.Fatalf("%+v", got)
	}
	want := Datum{
		Key: "mass", Label: "mass", Kind: unit.Mass, Unit: "g", Value: 0.0018, Low: 0.0017, High: 0.002,
		Source: "CommonPractice", Confidence: "medium", Note: "from memory",
	}
	if d := cmp.Diff(want, got[0].Data[0]); d != "" {
		t.Error(d)
	}
	if d, ok := got[0].Get("fill"); !ok || d.Value != 293.15 || d.Low != 277.15 {
		t.Errorf("fill: %+v", d)
	}
	if _, ok := got[0].Get("colour"); ok {
		t.Error("Get finds what is not there")
	}
	if v := got[1].Value("mass"); v != 0.003 {
		t.Errorf("Value: %v", v)
	}
}

func TestParseCardsReportsEveryFault(t *testing.T) {
	const text = `mass | mass | mass | 1 | 1 | 1 | g | SI2019 | high |
[] no name
[open
[one] One
mass | mass | mass | 1 | 1 | 1 | g | SI2019 | high
mass | mass | mass | 1,5 | 1 | 2 | g | SI2019 | high |
neck | neck | length | 28 | 27 | 29 | g | SI2019 | high |
blow | blow pressure | gauge pressure | 35 | 30 | 40 | bar | SI2019 | high |
mood | mood | mood | 1 | 1 | 1 | g | SI2019 | high |
cap | cap | mass | 3 | 3.1 | 4 | g | SI2019 | high |
cup | cup | mass | 3 | 1 | 4 | g | Nobody1900 | sure |
cup | | mass | 3 | 1 | 4 | g | SI2019 | high |
bare | bare | mass | 3 g | 1 g | 4 g | | SI2019 | high |
 | none | mass | 3 | 1 | 4 | g | SI2019 | high |
[one] again
`
	cards, err := ParseCards("cards.txt", text)
	if err == nil || cards != nil {
		t.Fatalf("%+v, %v", cards, err)
	}
	lines := strings.Split(err.Error(), "\n")
	want := []string{
		"cards.txt:1: a value before the first [name]",
		`cards.txt:2: want "[name] title", have "[] no name"`,
		`cards.txt:3: want "[name] title", have "[open"`,
		"cards.txt:5: want 10 fields, have 9",
		`cards.txt:6: mass: value: "1,5 g" has a comma`,
		`cards.txt:7: neck: value: "28 g" is in g, a unit of mass`,
		`cards.txt:7: neck: low: "27 g"`,
		`cards.txt:7: neck: high: "29 g"`,
		`cards.txt:8: blow: value: "35 bar" must state gauge or absolute`,
		"cards.txt:8: blow: low:",
		"cards.txt:8: blow: high:",
		`cards.txt:9: mood: there is no quantity "mood"`,
		"cards.txt:10: cap: want low <= value <= high, have 3.1, 3, 4 g",
		`cards.txt:11: cup: source "Nobody1900" is not in sources.txt`,
		`cards.txt:11: cup: confidence "sure" is not high, medium or low`,
		"cards.txt:12: cup: has no label",
		`cards.txt:12: cup stands twice in card "one"`,
		"cards.txt:13: bare: has no unit; mass has g, kg,",
		`cards.txt:14: want a key of one word, have ""`,
		`cards.txt:15: card "one" stands twice`,
	}
	for i, w := range want {
		if i >= len(lines) {
			t.Fatalf("%d faults, want %d:\n%v", len(lines), len(want), err)
		}
		if !strings.HasPrefix(lines[i], w) {
			t.Errorf("fault %d: %s\nwant: %s", i, lines[i], w)
		}
	}
	if len(lines) != len(want) {
		t.Errorf("%d faults, want %d:\n%v", len(lines), len(want), err)
	}
}

func panics(f func()) (did bool) {
	defer func() { did = recover() != nil }()
	f()
	return
}

func TestPanics(t *testing.T) {
	if !panics(func() { MustCards("cards.txt", "x") }) {
		t.Error("MustCards swallows a fault")
	}
	if panics(func() { MustCards("cards.txt", goodCards) }) {
		t.Error("MustCards panics on good cards")
	}
	if !panics(func() { Card{Name: "x"}.Value("y") }) {
		t.Error("Value invents a datum")
	}
}

func FuzzParseCards(f *testing.F) {
	f.Add(goodCards)
	f.Add("[a]\nk | l | ratio | 1 | 1 | 1 | | SI2019 | high |")
	f.Add("[a]\n|||||||||")
	f.Add("[a]\nt | t | temperature | 1 | -300 | 1e999 | °F | SI2019 | low | x\n[")
	f.Fuzz(func(t *testing.T, text string) {
		cards, err := ParseCards("f", text)
		if err != nil {
			if cards != nil {
				t.Fatal("cards beside an error")
			}
			return
		}
		for _, c := range cards {
			for _, d := range c.Data {
				if math.IsNaN(d.Value+d.Low+d.High) || math.IsInf(d.Value+d.Low+d.High, 0) || d.Low > d.Value || d.Value > d.High {
					t.Fatalf("%+v", d)
				}
				if got, ok := c.Get(d.Key); !ok || got != d {
					t.Fatalf("Get(%q) = %+v", d.Key, got)
				}
			}
		}
	})
}
