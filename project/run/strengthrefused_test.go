package run

import (
	"slices"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design"
	"costrel/unit"
)

// A blow that stands with a wall that is refused says why there are no tests.
func TestTestsSayWhyTheWallIsRefused(t *testing.T) {
	doc, err := design.Load("", "schema: 1\nname: thick\nclass: csd-500\nblow: {wall_factor: 2}\n")
	if err != nil {
		t.Fatal(err)
	}
	d := doc.Design
	w := work{ctx: t.Context(), full: true, until: "wall"}
	_, err = newStrengthTests(&pass{d: d, name: "strength", work: w, done: evaluate(d, w, NewCache(64))})
	if err == nil || !strings.Contains(err.Error(), "panel factor of 2") {
		t.Errorf("%v", err)
	}
}

// Feet that are no part of the round dome are refused by the inputs that say so,
// and only what needs the shell goes with them.
func TestFeetThatDoNotFitTheDome(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	const waist = "panel_from: 70 mm, panel_to: 110 mm, profile: {columns: [z mm, r mm], rows: [[0, 23], [2, 25], [6, 27], [12, 28.3], [20, 28.8], [34, 29], [45, 29], [60, 33], [118, 33], [126.4, 32.24], [134.8, 30.09], [143.1, 26.86], [151.5, 23.05], [159.9, 19.24], [168.3, 16.01], [176.6, 13.86], [185, 13.1]]}"
	for change, want := range map[string]string{
		"base: {push_up: 28 mm}":                                                     "bottle.base.height 34 mm is too low",
		"base: {height: 11 mm, standing_diameter: 40 mm}":                            "raise the one or lower the other",
		"base: {type: petaloid, standing_diameter: 60 mm}, height: 202 mm, " + waist: "bottle.base.standing_diameter 60 mm is wider than the bottle at bottle.base.height, 58 mm",
	} {
		d := loaded(t, "class: csd-500\nbottle: {"+change+"}\nbrief: {nominal: 440 mL}")
		e := runStage(strengthStage, d, work{ctx: t.Context(), full: true}, evaluate(d, work{ctx: t.Context(), full: true, until: "pressure"}, NewCache(64)))
		if e.err == nil || !strings.Contains(unit.Spell(e.err.Error(), unit.EU), want) {
			t.Errorf("%s: %v", change, e.err)
		}
		for _, key := range []string{"material.glass.wall", "altitude.pressure"} {
			if !slices.ContainsFunc(e.figures, func(f figure.Figure) bool { return f.Key == key }) {
				t.Errorf("%s: no %s", change, key)
			}
		}
	}
}
