package api

import (
	"net/http"
	"strings"
	"testing"

	"costrel/project/report"
)

func TestCompare(t *testing.T) {
	t.Parallel()
	s, _ := server(t)
	var opened Opened
	call(t, "GET", s.URL+"/api/designs/sorrel-lime.yaml", nil, &opened)
	lighter := strings.Replace(opened.Text, "wall: 3.60 mm", "wall: 3.50 mm", 1)
	if lighter == opened.Text {
		t.Fatal("the demo design has no preform wall of 3.60 mm")
	}
	body := func(variant string) map[string]any {
		return map[string]any{"baseline": map[string]string{"name": "sorrel-lime.yaml"}, "variant": map[string]string{"text": variant}}
	}
	var d report.Difference
	if r := call(t, "POST", s.URL+"/api/compare", body(lighter), &d); r.StatusCode != http.StatusOK {
		t.Fatalf("compare: %s", r.Status)
	}
	if !(d.Saved > 0) {
		t.Errorf("a thinner preform saves %g kg, want more than 0", d.Saved)
	}
	if len(d.Inputs) != 1 || d.Inputs[0].Path != "preform.wall" {
		t.Errorf("inputs that differ: %+v, want preform.wall alone", d.Inputs)
	}
	for i := 1; i < len(d.Margins); i++ {
		a, b := d.Margins[i-1], d.Margins[i]
		if a.HasPerGram && b.HasPerGram && a.PerGram < b.PerGram {
			t.Errorf("%s loses %g %%/g and stands before %s with %g %%/g", a.Figure, a.PerGram, b.Figure, b.PerGram)
		}
	}
	var mass bool
	for _, f := range d.Figures {
		mass = mass || f.Key == "preform.mass" && f.Change < 0
	}
	if !mass {
		t.Error("the preform mass is not among the figures that fell")
	}
	var same report.Difference
	call(t, "POST", s.URL+"/api/compare", body(opened.Text), &same)
	if len(same.Margins)+len(same.Figures)+len(same.Inputs) != 0 {
		t.Errorf("a design differs from itself: %+v", same)
	}
	for want, b := range map[int]map[string]any{
		http.StatusUnprocessableEntity: body("name: broken\n"),
		http.StatusNotFound:            {"baseline": map[string]string{"name": "none.yaml"}, "variant": map[string]string{"text": lighter}},
	} {
		if r := call(t, "POST", s.URL+"/api/compare", b, nil); r.StatusCode != want {
			t.Errorf("%v: %s, want %d", b["baseline"], r.Status, want)
		}
	}
}
