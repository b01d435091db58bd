package design

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"costrel/figure"
	"costrel/unit"
)

func minimal(class string) string { return "schema: 1\nname: Test\nclass: " + class + "\n" }

// Each template is a usable design as it stands.
func TestTemplatesLoad(t *testing.T) {
	for _, class := range Classes() {
		doc, err := Load(class+".yaml", minimal(class))
		if err != nil {
			t.Errorf("%s:\n%v", class, err)
			continue
		}
		for _, w := range doc.Warnings {
			t.Errorf("%s warns: %v", class, w)
		}
		for _, it := range Walk() {
			if m := doc.MarkOf(it.Path); m.Kind == "" {
				t.Errorf("%s: %s has no mark", class, it.Path)
			}
		}
	}
}

// A document never shares memory with the template or with another document.
func TestLoadSharesNothing(t *testing.T) {
	for _, class := range Classes() {
		a, err := Load("", minimal(class))
		if err != nil {
			t.Fatal(err)
		}
		keep, marks := a.Design.Clone(), maps.Clone(a.Marks)
		b, err := Load("", minimal(class))
		if err != nil {
			t.Fatal(err)
		}
		spoil(reflect.ValueOf(b.Design).Elem())
		for k := range b.Marks {
			b.Marks[k] = Mark{}
		}
		c, err := Load("", minimal(class))
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range []*Document{a, c} {
			if diff := cmp.Diff(keep, d.Design); diff != "" {
				t.Errorf("%s changed:\n%s", class, diff)
			}
			if !maps.Equal(marks, d.Marks) {
				t.Errorf("%s: marks changed", class)
			}
		}
	}
}

// spoil changes every value that can be reached.
func spoil(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			spoil(v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			spoil(v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			spoil(v.Elem())
		}
	case reflect.Float64:
		v.SetFloat(-1)
	case reflect.String:
		v.SetString("spoilt")
	case reflect.Int:
		v.SetInt(-1)
	}
}

// Clone reaches everything: what is added to the design must be added there.
func TestCloneIsDeep(t *testing.T) {
	full := &Design{}
	fill(reflect.ValueOf(full).Elem())
	c := full.Clone()
	if diff := cmp.Diff(full, c); diff != "" {
		t.Fatalf("the copy differs:\n%s", diff)
	}
	spoil(reflect.ValueOf(c).Elem())
	want := &Design{}
	fill(reflect.ValueOf(want).Elem())
	if diff := cmp.Diff(want, full); diff != "" {
		t.Errorf("changing the copy changed the original:\n%s", diff)
	}
}

func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i))
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(v.Index(0))
		fill(v.Index(1))
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem())
	case reflect.Float64:
		v.SetFloat(2)
	}
}

func TestLoadTogether(t *testing.T) {
	text := demo(t)
	want, err := Load("demo", text)
	if err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			got, err := Load("demo", text)
			if err != nil || !cmp.Equal(want.Design, got.Design) {
				t.Errorf("another design: %v", err)
			}
			_ = got.Listing("us")
		})
	}
	wg.Wait()
}

// Every tag of the schema can be used: kinds have units, ranges are readable
// and the right way round, keys are unique, each field is explained.
func TestSchemaTags(t *testing.T) {
	seen := map[string]bool{}
	for _, it := range Walk() {
		f := it.Field
		if seen[it.Path] {
			t.Errorf("%s stands twice", it.Path)
		}
		seen[it.Path] = true
		if f.Label == "" || f.Doc == "" && it.Path != "limits" {
			t.Errorf("%s has no label or no sentence", it.Path)
		}
		for _, g := range append([]Field{f}, columnsOf(it)...) {
			if (g.Min != "") != g.lo.ok || (g.Max != "") != g.hi.ok {
				t.Errorf("%s.%s: range %q to %q is not readable", it.Path, g.Key, g.Min, g.Max)
			}
			if g.lo.ok && g.hi.ok && g.lo.si >= g.hi.si {
				t.Errorf("%s.%s: range %q to %q is upside down", it.Path, g.Key, g.Min, g.Max)
			}
			if _, known := unit.Find(g.Kind, g.Trade); g.Trade != "" && !known {
				t.Errorf("%s.%s: %q is no unit of %s", it.Path, g.Key, g.Trade, g.Kind)
			}
			if g.Kind != "" && !g.lo.ok {
				t.Errorf("%s.%s: a quantity without range", it.Path, g.Key)
			}
		}
	}
}

func columnsOf(it Item) []Field {
	if it.Table && it.Field.typ.Elem().Kind() == reflect.Struct {
		return fieldsOf(it.Field.typ.Elem())
	}
	return nil
}

func TestLimitsMerge(t *testing.T) {
	text := minimal("csd-1500") + `limits:
  - {figure: shelf.loss.end, side: max, value: none}
  - {figure: wall.min, side: min, value: 0.22 mm, owner: me}
  - {figure: preform.mass, side: max, value: 38 g}
`
	doc, err := Load("", text)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := Load("", minimal("csd-1500"))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := len(doc.Design.Limits), len(plain.Design.Limits); got != want {
		t.Errorf("%d limits, want %d: one taken away, one replaced, one added", got, want)
	}
	if l := doc.Design.Limits[0]; l.Figure != "wall.min" || l.Value != "0.22 mm" || l.Owner != "me" {
		t.Errorf("first limit %+v", l)
	}
	if m := doc.MarkOf("limits[0].value"); m.Line != 6 || m.Kind != figure.Given {
		t.Errorf("mark of the first limit: %+v", m)
	}
	for i, l := range doc.Design.Limits {
		if l.Figure == "shelf.loss.end" || i > 0 && l.Figure == "wall.min" {
			t.Errorf("limit %d is %+v", i, l)
		}
		if l.Source == "" && i > 1 {
			t.Errorf("limit of the template without source: %+v", l)
		}
	}
}

func TestNothingWritten(t *testing.T) {
	doc, err := Load("", minimal("csd-1500")+"note:\nbrief:\n  customer: ~\noven:\npreform:\n  section_targets: ~\nclimate:\n  lane: []\n")
	if err != nil {
		t.Fatal(err)
	}
	if len(doc.Warnings) != 1 || doc.Warnings[0].Path != "oven" || !strings.Contains(doc.Warnings[0].Error(), "the section is empty") {
		t.Errorf("warnings: %v", doc.Warnings)
	}
	if doc.Design.Preform.Targets != nil || doc.Design.Note != "" {
		t.Errorf("%+v", doc.Design.Preform.Targets)
	}
	// Half a set of targets is refused.
	_, err = Load("", minimal("csd-1500")+"preform:\n  section_targets:\n    panel: 15 g\n")
	if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "preform.section_targets.base: missing") {
		t.Errorf("half a set of targets: %v", err)
	}
}

func TestTooLarge(t *testing.T) {
	_, err := Load("big.yaml", minimal("csd-500")+"#"+strings.Repeat("x", MaxBytes))
	if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "more than 1048576") {
		t.Error(err)
	}
}

// The same numbers in other units, spelled in other ways, give the same design.
func TestUnitsAreFree(t *testing.T) {
	a, err := Load("", minimal("csd-1500")+"preform:\n  wall: 3.556 mm\nbrief:\n  nominal: 1.5 L\ndrink:\n  fill_temperature: 12.5 °C\nblow:\n  high_blow: 33 bar(g)\n")
	if err != nil {
		t.Fatal(err)
	}
	b, err := Load("", minimal("csd-1500")+"blow: {high_blow: '3300 kPa(g)'}\nbrief:\n    nominal: 150cL\npreform:\n    wall: 0.14 in\ndrink: {fill_temperature: 54.5 °F}\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range Walk() {
		x, _, okX := a.Design.Number(it.Path)
		y, _, okY := b.Design.Number(it.Path)
		if okX != okY || abs(x-y) > 1e-12*(abs(x)+abs(y)) {
			t.Errorf("%s: %v and %v", it.Path, x, y)
		}
	}
}

// TestFinishOffItsCard: a mass or a bore that cannot be that of the named
// finish is taken, and said.
func TestFinishOffItsCard(t *testing.T) {
	doc, err := Load("off.yaml", minimal("csd-500")+"finish:\n  type: 28-short-csd\n  mass: 7 g\n  bore: 23.5 mm\n")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, w := range doc.Warnings {
		got = append(got, w.Path)
	}
	if !slices.Equal(got, []string{"finish.mass", "finish.bore"}) {
		t.Errorf("warnings on %v: %v", got, doc.Warnings)
	}
}

// TestWallLighterThanPreform: blowing makes PET denser, never lighter.
func TestWallLighterThanPreform(t *testing.T) {
	doc, err := Load("light.yaml", minimal("csd-500")+"resin:\n  density_preform: 1370 kg/m³\n  density_wall: 1350 kg/m³\n")
	if err != nil {
		t.Fatal(err)
	}
	if len(doc.Warnings) != 1 || doc.Warnings[0].Path != "resin.density_preform" || !strings.Contains(doc.Warnings[0].Error(), "denser") {
		t.Errorf("warnings: %v", doc.Warnings)
	}
}

// TestNoEffect: a value that the rest of the design leaves without effect is
// taken, and said; one that stands in the template alone is not.
func TestNoEffect(t *testing.T) {
	for text, want := range map[string]string{
		"preform:\n  neck_wall: 3 mm\n":                        "preform.neck_wall",
		"preform:\n  neck_wall: 3.35 mm\n":                     "",
		"preform:\n  neck_wall: 3 mm\n  taper_length: 10 mm\n": "",
		"preform:\n  wall: 3.4 mm\n":                           "",
		"bottle:\n  base:\n    type: punt\n":                   "",
		"bottle:\n  base:\n    type: punt\n    feet: 5\n":      "bottle.base.feet",
	} {
		doc, err := Load("", minimal("csd-1500")+text)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, w := range doc.Warnings {
			got += w.Path
		}
		if got != want {
			t.Errorf("%q: warnings %v", text, doc.Warnings)
		}
	}
	doc, err := Load("", minimal("returnable-1000")+"bottle:\n  base:\n    type: petaloid\n")
	if err != nil || doc.Design.Bottle.Base.Feet != 5 || !strings.Contains(doc.Marks["bottle.base.feet"].Source, "common practice") {
		t.Errorf("feet of a template without feet: %v %v", doc.Design.Bottle.Base.Feet, err)
	}
}
