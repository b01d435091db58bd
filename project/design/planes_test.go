package design

import (
	"strings"
	"testing"

	"costrel/num/numtest"
	"costrel/unit"
)

// Where a bottle is cut to be weighed does not move its plastic: targets keep
// the planes at which they held.
func TestMovePlanes(t *testing.T) {
	text := minimal("csd-1500") + "bottle:\n  planes: [60 mm, 190 mm]\npreform:\n  section_targets: {shoulder: 13.1 g, panel: 15.5 g, base: 10.2 g}\n"
	block := strings.Replace(text, "section_targets: {shoulder: 13.1 g, panel: 15.5 g, base: 10.2 g}", "section_targets:\n    shoulder: 13.1 g\n    panel: 15.5 g\n    base: 10.2 g", 1)
	once := numtest.Must(MovePlanes(block, "bottle.planes[0]", "75 mm"))
	twice := numtest.Must(MovePlanes(once, "bottle.planes[1]", "8 in"))
	whole := numtest.Must(MovePlanes(block, "bottle.planes", "planes mm\n75\n200"))
	for _, c := range []struct{ name, text, want string }{
		{"one", once, "bottle:\n  planes: [75 mm, 190 mm]\n"},
		{"again", twice, "    planes: [60 mm, 190 mm]\n"},
		{"whole", whole, "    planes: [60 mm, 190 mm]\n"},
	} {
		if !strings.Contains(c.text, c.want) {
			t.Errorf("%s:\n%s", c.name, c.text)
		}
	}
	// Without targets the bottle itself keeps them, those of its template, too.
	for text, want := range map[string]string{
		minimal("csd-1500"): "parts: [52 mm, 200 mm]",
		minimal("csd-1500") + "bottle:\n  planes: [60 mm, 190 mm]\n": "parts: [60 mm, 190 mm]",
	} {
		once := numtest.Must(MovePlanes(text, "bottle.planes", "planes mm\n75\n180"))
		twice := numtest.Must(MovePlanes(once, "bottle.planes[1]", "185 mm"))
		if !strings.Contains(once, want) || !strings.Contains(twice, want) || !strings.Contains(twice, "planes: [75 mm, 185 mm]") {
			t.Errorf("want %s:\n%s\n%s", want, once, twice)
		}
	}
	for _, c := range []struct{ parts, want string }{
		{"[60 mm]", "bottle.parts: 1 planes"},
		{"[60 mm, 50 mm]", "bottle.parts[1]: the plane at 50.0 mm is not above the one before"},
		{"[60 mm, 590 mm]", "the upper plane of the sections stands at 590.0 mm"},
	} {
		if _, err := Load("", minimal("csd-1500")+"bottle:\n  parts: "+c.parts+"\n"); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.parts, err)
		}
	}
	plain := "bottle:\n  planes: [60 mm, 190 mm]\n" // not usable yet
	got := numtest.Must(MovePlanes(plain, "bottle.planes", "planes mm\n75\n200"))
	if want := numtest.Must(Set(plain, "bottle.planes", "planes mm\n75\n200")); got != want {
		t.Errorf("%s", got)
	}
	if _, err := MovePlanes(block, "bottle.planes[7]", "75 mm"); err == nil {
		t.Error("an eighth plane was moved")
	}
	for _, c := range []struct{ planes, want string }{
		{"[60 mm]", "preform.section_targets.planes: 1 planes"},
		{"[60 mm, 50 mm]", "preform.section_targets.planes[1]: the plane at 50.0 mm is not above the one before"},
		{"[60 mm, 590 mm]", "the upper plane of the targets stands at 590.0 mm"},
	} {
		if _, err := Load("", block+"    planes: "+c.planes+"\n"); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), c.want) {
			t.Errorf("%s: %v", c.planes, err)
		}
	}
}
