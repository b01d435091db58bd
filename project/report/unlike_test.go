package report

import (
	"os"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/unit"
)

// TestUnlike holds that a preview beside a blown wall is told in each row that
// rests on the wall, and nowhere counted; the other rows keep their difference.
func TestUnlike(t *testing.T) {
	text, err := os.ReadFile("../../examples/sorrel-lime.yaml")
	if err != nil {
		t.Fatal(err)
	}
	read := func(change func(d *design.Design)) *design.Document {
		doc, err := design.Load("sorrel-lime.yaml", string(text))
		if err != nil {
			t.Fatal(err)
		}
		change(doc.Design)
		return doc
	}
	full := func(change func(d *design.Design)) *run.Result {
		r, err := run.Full(t.Context(), read(change), nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	lighter := func(d *design.Design) { d.Preform.Wall -= 1e-4 }
	blown := full(func(*design.Design) {})
	unfilled := full(func(d *design.Design) { lighter(d); d.Blow.High, d.Blow.PreBlow = 2e5, 1e5 })
	preview := run.Check(read(lighter), nil)
	for _, c := range []struct {
		a, b *run.Result
		told string // at the head, and the remedy in the rows
		todo string
	}{
		{blown, preview, "the wall of the design as it stands is the draw-down preview", "run both in full"},
		{preview, blown, "the wall of the baseline is the draw-down preview", "run both in full"},
		{blown, unfilled, "the wall of the design as it stands is the draw-down preview", "mend the blow of the design as it stands"},
		{unfilled, preview, "", ""},
		{blown, blown, "", ""},
	} {
		d := NewDifference(c.a, c.b, unit.US)
		told := strings.Join(d.Problems, "; ")
		if !strings.HasPrefix(told, c.told) || (c.told == "") != !strings.Contains(told, "draw-down") {
			t.Errorf("told %q, want %q", told, c.told)
		}
		unlike, like := map[string]bool{}, map[string]bool{}
		for _, f := range d.Figures {
			if f.Unlike != "" {
				unlike[f.Key] = true
				if f.ChangeDisplay != "" || f.Change != 0 || f.Percent != 0 || !strings.Contains(f.Unlike, c.todo) || strings.Contains(f.Unlike, "‹") {
					t.Errorf("%+v", f)
				}
			} else if f.ChangeDisplay != "" {
				like[f.Key] = true
			}
		}
		limits := 0
		for _, m := range d.Margins {
			if m.Unlike != "" {
				limits++
				if m.LostDisplay != "" || m.Lost != 0 || m.HasPerGram || !strings.Contains(m.Unlike, c.todo) {
					t.Errorf("%+v", m)
				}
			} else if limits > 0 {
				t.Errorf("%s stands behind a row that does not count", m.Figure)
			}
			if c.told != "" && m.HasPerGram {
				t.Errorf("%s counts as a gain for a gram", m.Figure)
			}
		}
		var out strings.Builder
		if err := d.WriteText(&out); err != nil {
			t.Fatal(err)
		}
		if got, want := strings.Count(out.String(), "  "+wallMarkShort), len(unlike)+limits; got != want {
			t.Errorf("%d rows of the printed sheet are marked, want %d:\n%s", got, want, out.String())
		}
		if c.told == "" {
			if len(unlike)+limits > 0 {
				t.Errorf("rows of like walls are marked: %v", unlike)
			}
			continue
		}
		for _, key := range []string{"wall.min", "bottle.mass", "pack.stress.hoop.store", "shelf.loss.end"} {
			if !unlike[key] || like[key] {
				t.Errorf("%s rests on the wall and is not marked", key)
			}
		}
		for _, key := range []string{"preform.mass", "cost.resin"} {
			if !like[key] || unlike[key] {
				t.Errorf("%s does not rest on the wall and lost its difference", key)
			}
		}
		if limits == 0 {
			t.Error("no limit on a figure of the wall is marked")
		}
	}
}

// TestCountedFrom holds that a loss counted from the sealed pack and one counted
// from the reading after a day are not taken for one quantity.
func TestCountedFrom(t *testing.T) {
	read := func(reference string) *run.Result {
		text, err := os.ReadFile("../../examples/sorrel-lime.yaml")
		if err != nil {
			t.Fatal(err)
		}
		doc, err := design.Load("sorrel-lime.yaml", string(text))
		if err != nil {
			t.Fatal(err)
		}
		doc.Design.Shelf.Reference = reference
		if reference != "24h" {
			doc.Design.Preform.Wall -= 1e-4
		}
		return run.Check(doc, nil)
	}
	d := NewDifference(read("sealed"), read("24h"), unit.EU)
	const mark = "from sealed beside from 24 h"
	rows := map[string]bool{}
	for _, f := range d.Figures {
		if (f.UnlikeMark != "") != (f.Unlike != "") || f.Unlike != "" && (f.UnlikeMark != mark || f.ChangeDisplay != "" || f.Change != 0 || f.Percent != 0) {
			t.Errorf("%+v", f)
		}
		rows[f.Key] = f.Unlike != ""
	}
	for _, key := range []string{"shelf.loss.end", "shelf.loss.growth"} {
		if !rows[key] {
			t.Errorf("%s is not marked", key)
		}
	}
	for _, key := range []string{"preform.mass", "wall.min", "shelf.oxygen.end"} {
		if rows[key] {
			t.Errorf("%s is marked, and no reference moves it", key)
		}
	}
	found, behind := false, false
	for _, m := range d.Margins {
		behind = behind || m.Unlike != ""
		if behind && m.Unlike == "" {
			t.Errorf("%s stands behind a row that does not count", m.Figure)
		}
		if m.Figure != "shelf.loss.end" {
			continue
		}
		found = true
		if m.UnlikeMark != mark || m.LostDisplay != "" || m.HasPerGram || m.Lost != 0 || !strings.Contains(m.Unlike, "the sealed pack in balance") || !strings.Contains(m.Unlike, "the reading after 24 hours") {
			t.Errorf("%+v", m)
		}
	}
	if !found {
		t.Error("the limit on the loss is not among the margins")
	}
	var out strings.Builder
	if err := d.WriteText(&out); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "  "+mark) || !strings.Contains(strings.Join(d.Problems, "; "), "shelf.loss_reference") {
		t.Errorf("not told:\n%s", out.String())
	}
	for _, f := range NewDifference(read("sealed"), read("filler"), unit.EU).Figures {
		if f.Key == "shelf.loss.end" && f.Unlike == "" {
			t.Error("the set-point of the filler is taken for the sealed pack")
		}
	}
	for _, f := range NewDifference(read("24h"), read("24h"), unit.EU).Figures {
		t.Errorf("a design differs from itself: %+v", f)
	}
}
