package api

import (
	"net/http"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/project/report"
	"costrel/unit"
)

// Every endpoint that answers in the reader's units takes the reader's own choices.
func TestOwnUnits(t *testing.T) {
	s, _ := server(t)
	const units = "us,length=mm,pressure=bar"
	var c Checked
	call(t, "POST", s.URL+"/api/check", map[string]any{"name": "sorrel-lime.yaml", "units": "us,pressure=bar,length=mm"}, &c)
	if c.Board == nil || c.Board.Design.Units != units {
		t.Fatalf("board: %+v", c.Board)
	}
	shown := map[string]string{}
	for _, f := range c.Board.Figures {
		shown[f.Key] = f.Display
	}
	for key, end := range map[string]string{"pack.pressure.fill": " bar(g)", "bottle.height": " mm", "wall.min": " mm", "bottle.volume.fill": " fl oz", "inject.clamp": " tonf(US)", "pack.stress.hoop.hot": " psi"} {
		if !strings.HasSuffix(shown[key], end) {
			t.Errorf("%s is shown as %q, not in%s", key, shown[key], end)
		}
	}
	for _, p := range c.Plots {
		switch p.Key {
		case "wall.arc":
			if p.X.Unit != "mm" || p.Y.Unit != "mm" {
				t.Errorf("wall.arc in %q and %q", p.X.Unit, p.Y.Unit)
			}
		case "pressure.temperature":
			if p.X.Unit != "°F" || p.Y.Unit != "bar(g)" {
				t.Errorf("pressure.temperature in %q and %q", p.X.Unit, p.Y.Unit)
			}
		}
	}
	input := func(list []design.Listed, path string) design.Listed {
		for _, l := range list {
			if l.Path == path {
				return l
			}
		}
		t.Fatalf("no input %s", path)
		return design.Listed{}
	}
	if l := input(c.Resolved, "preform.wall"); l.Unit != "mm" {
		t.Errorf("the preform's wall: %+v", l)
	}
	var opened Opened
	call(t, "GET", s.URL+"/api/designs/sorrel-lime.yaml?units=eu,length%3Dmil", nil, &opened)
	if l := input(opened.Resolved, "preform.wall"); !strings.HasSuffix(l.Display, " mil") || l.Text != input(c.Resolved, "preform.wall").Text {
		t.Errorf("the preform's wall as opened: %+v", l)
	}
	var why report.Figure
	call(t, "POST", s.URL+"/api/why", map[string]any{"name": "sorrel-lime.yaml", "key": "pack.stress.hoop.store", "units": units}, &why)
	if !strings.Contains(why.Origin.Substituted, "bar(g)") || !strings.Contains(why.Origin.Substituted, " mm") || !strings.HasSuffix(why.Display, " psi") {
		t.Errorf("why: %s", why.Origin.Substituted)
	}
	var d report.Difference
	call(t, "POST", s.URL+"/api/compare", map[string]any{"baseline": Side{Name: "sorrel-lime.yaml"}, "variant": Side{Name: "sorrel-lime.yaml"}, "units": "eu,mass=oz"}, &d)
	if !strings.HasSuffix(d.SavedDisplay, " oz") {
		t.Errorf("saved %q", d.SavedDisplay)
	}
}

// What is no system is refused before anything is computed, every fault with its place.
func TestUnitsRefused(t *testing.T) {
	s, _ := server(t)
	var refused struct {
		Detail string
		Errors []struct{ Message, Location string }
	}
	resp := call(t, "POST", s.URL+"/api/check", map[string]any{"name": "sorrel-lime.yaml", "units": "us,presure=bar,length=parsec"}, &refused)
	if resp.StatusCode != http.StatusUnprocessableEntity || len(refused.Errors) != 2 || refused.Errors[0].Location != "body.units" {
		t.Fatalf("%d %+v", resp.StatusCode, refused)
	}
	for i, want := range []string{`"presure"`, `"parsec"`} {
		if !strings.Contains(refused.Errors[i].Message, want) || !strings.Contains(refused.Errors[i].Message, "write ") {
			t.Errorf("%s", refused.Errors[i].Message)
		}
	}
	for _, text := range []string{"xx", "us,", "us;pressure=bar", "us," + strings.Repeat("mass=g,", 400)} {
		if resp := call(t, "POST", s.URL+"/api/check", map[string]any{"name": "sorrel-lime.yaml", "units": text}, nil); resp.StatusCode != http.StatusUnprocessableEntity {
			t.Errorf("%.20q answers %d", text, resp.StatusCode)
		}
	}
	events := follow(t, s, "POST", "/api/runs", `{"name":"sorrel-lime.yaml","units":"us,length=parsec"}`, 0)
	if f := events.last().failed(t); !strings.Contains(f.Message, `"parsec"`) {
		t.Errorf("a run in parsecs: %+v", f)
	}
}

// A run is kept under the units it was asked in: the same choices in another order
// find it, others compute anew.
func TestRunsOfOwnUnits(t *testing.T) {
	a := (&runner{program: "p"}).input(request{name: "n", text: "t", units: "us,length=mm,pressure=bar"})
	parsed, err := unit.ParseSystem("US, pressure=bar(g), length=mm")
	if err != nil {
		t.Fatal(err)
	}
	if b := (&runner{program: "p"}).input(request{name: "n", text: "t", units: parsed}); a != b {
		t.Error("another order is another run")
	}
	if b := (&runner{program: "p"}).input(request{name: "n", text: "t", units: "us,length=mm"}); a == b {
		t.Error("other units are the same run")
	}
}

// The list of what may be chosen: every quantity of a design and of a figure, once.
func TestUnitChoices(t *testing.T) {
	s, _ := server(t)
	var out struct {
		Preferences []unit.Preference
		Used        []string
	}
	call(t, "GET", s.URL+"/api/units", nil, &out)
	keys := map[string]bool{}
	for _, k := range out.Used {
		keys[k] = true
	}
	for _, want := range []string{"length", "wall", "volume", "mass", "pressure", "vacuum", "temperature", "force", "stress", "time"} {
		if !keys[want] {
			t.Errorf("%s is not offered", want)
		}
	}
	for _, not := range []string{"gauge-pressure", "temperature-difference", "money"} {
		if keys[not] {
			t.Errorf("%s is offered", not)
		}
	}
	if len(out.Preferences) < 50 || len(out.Used) != len(keys) {
		t.Errorf("%d preferences, %d used of %d", len(out.Preferences), len(keys), len(out.Used))
	}
}
