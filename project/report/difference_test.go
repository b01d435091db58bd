package report

import (
	"os"
	"slices"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/unit"
)

func compareWith(t *testing.T, replace ...string) Difference {
	t.Helper()
	text, err := os.ReadFile("../../examples/sorrel-lime.yaml")
	if err != nil {
		t.Fatal(err)
	}
	changed := string(text)
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(changed, replace[i]) {
			t.Fatalf("the example has no %q", replace[i])
		}
		changed = strings.Replace(changed, replace[i], replace[i+1], 1)
	}
	var r [2]*run.Result
	for i, s := range []string{string(text), changed} {
		doc, err := design.Load("sorrel-lime.yaml", s)
		if err != nil {
			t.Fatal(err)
		}
		r[i] = run.Check(doc, nil)
	}
	return NewDifference(r[0], r[1], unit.EU)
}

// TestTableRowsDiffer: a changed cell of a table is named with its row.
func TestTableRowsDiffer(t *testing.T) {
	d := compareWith(t, "[178, 49.5]", "[178, 49.4]")
	i := slices.IndexFunc(d.Inputs, func(c InputChange) bool { return strings.HasPrefix(c.Path, "bottle.profile[") })
	if i < 0 || !strings.Contains(d.Inputs[i].Old, "49.5") || !strings.Contains(d.Inputs[i].New, "49.4") {
		t.Errorf("the changed row of the profile is not listed: %+v", d.Inputs)
	}
}

// TestMovedLimit: a limit that was moved is told, and gives no price of the
// saving; so is one that only changed its owner.
func TestMovedLimit(t *testing.T) {
	for _, c := range []struct{ from, to string }{
		{`figure: shelf.loss.end, side: max, value: "12 %"`, `figure: shelf.loss.end, side: max, value: "15 %"`},
		{`value: "9.0 bar(g)", owner: Quernholm Drinks`, `value: "9.0 bar(g)", owner: Somebody Else`},
	} {
		d := compareWith(t, c.from, c.to)
		told := 0
		for _, m := range d.Margins {
			if m.OldLimit != m.NewLimit {
				told++
				if m.HasPerGram || m.OldLimit == "none" || m.NewLimit == "none" {
					t.Errorf("%s: %+v", c.to, m)
				}
			}
		}
		if told != 1 {
			t.Errorf("%s: %d limits are told to differ, want 1: %+v", c.to, told, d.Margins)
		}
	}
}

// TestSameValueInAnotherUnit is no difference.
func TestSameValueInAnotherUnit(t *testing.T) {
	if d := compareWith(t, "wall: 3.60 mm", "wall: 0.36 cm"); len(d.Inputs) != 0 {
		t.Errorf("listed as different: %+v", d.Inputs)
	}
}

// TestCrossedLimit: a value that crosses its limit inside the close band is
// told, as the board does.
func TestCrossedLimit(t *testing.T) {
	d := compareWith(t, `figure: preform.mass, side: max, value: "39.0 g"`, `figure: preform.mass, side: max, value: "38.7 g"`)
	i := slices.IndexFunc(d.Margins, func(m MarginChange) bool { return m.Figure == "preform.mass" })
	if i < 0 || d.Margins[i].OldSide != "" || d.Margins[i].NewSide != "over" {
		t.Errorf("%+v", d.Margins[max(i, 0)])
	}
	var b strings.Builder
	if err := d.WriteText(&b); err != nil || !strings.Contains(b.String(), "close -> close, over") {
		t.Errorf("%v\n%s", err, b.String())
	}
	if strings.Contains(b.String(), "−") {
		t.Errorf("two signs for minus:\n%s", b.String())
	}
}
