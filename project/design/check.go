package design

import (
	"strconv"
	"strings"

	"golang.org/x/text/currency"

	"costrel/figure"
	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/physics/permeation"
	"costrel/physics/resin"
	"costrel/unit"
)

// check reports every contradiction between values of the design. What is only
// doubtful becomes a warning of the document.
func (doc *Document) check() Faults {
	var faults Faults
	add := func(path, expected, format string, args ...any) {
		faults = append(faults, doc.place(path, expected, format, args...))
	}
	warn := func(path, expected, format string, args ...any) {
		doc.Warnings = append(doc.Warnings, doc.place(path, expected, format, args...))
	}
	d := doc.Design
	doc.checkCards(add)
	doc.checkShape(add)
	doc.checkFeet(add, warn)
	doc.checkPreform(add, warn)
	doc.checkLimits(add, warn)
	doc.checkProfile(add)
	doc.checkRecipe(add, warn)
	doc.checkMoney(add, warn)
	c := d.Drink.Carbonation
	switch {
	case d.Brief.Product == "hotfill" && c != nil && *c > 0:
		add("drink.carbonation", "no carbonation, or another product", "a hot-filled pack holds no CO2: at fill temperature the gas leaves the drink and the capped pack would be under pressure")
	case (d.Brief.Product == "carbonated" || d.Brief.Product == "returnable") && (c == nil || *c == 0):
		add("drink.carbonation", "a carbonation such as 4.0 vol, or brief.product: still for a drink without gas", "brief.product is %s, and the drink holds no CO2 (%s)", d.Brief.Product, gasOf(c))
	case (d.Brief.Product == "still" || d.Brief.Product == "aseptic") && c != nil && *c > 0:
		add("drink.carbonation", "no carbonation, or brief.product: carbonated, whose packs carry limits for the pressure", "a %s drink is not carbonated", d.Brief.Product)
	}
	if d.Brief.Product == "hotfill" && d.Drink.FillTemperature.Celsius() < 70 {
		warn("drink.fill_temperature", "‹82 to 96 °C›", "%s is low for hot filling", show(unit.TemperaturePoint, float64(d.Drink.FillTemperature)))
	}
	if d.Brief.Product != "hotfill" && d.Drink.FillTemperature.Celsius() > 60 {
		add("drink.fill_temperature", "below ‹60 °C›, or product: hotfill", "%s deforms a bottle that is not heat-set", show(unit.TemperaturePoint, float64(d.Drink.FillTemperature)))
	}
	if d.Resin.DensityPreform > d.Resin.DensityWall {
		warn("resin.density_preform", "at most resin.density_wall ("+show(unit.Density, d.Resin.DensityWall)+")", "the preform is denser than the wall blown from it: blowing crystallises PET, which makes it denser")
	}
	if d.Climate.Hot < d.Climate.Store {
		add("climate.hot", "at least the store temperature", "the hot lane is colder than the store")
	}
	if _, err := currency.ParseISO(d.Plant.Currency); err != nil || strings.ToUpper(d.Plant.Currency) != d.Plant.Currency {
		add("plant.currency", "a code of ISO 4217 in capitals, such as EUR or USD", "%q is not a currency code", d.Plant.Currency)
	}
	return faults
}

type faultFunc func(path, expected, format string, args ...any)

// checkCards reports cards that do not exist or do not belong together.
func (doc *Document) checkCards(add faultFunc) {
	d := doc.Design
	if _, err := resin.Find(d.Resin.Grade); err != nil {
		add("resin.grade", names(gradeNames(), d.Resin.Grade), "no resin card %q", d.Resin.Grade)
	}
	if _, err := permeation.Named(d.Shelf.Material); err != nil {
		add("shelf.material", names(permeation.Materials(), d.Shelf.Material), "no wall material %q", d.Shelf.Material)
	}
	if _, err := resin.FindHotLaw(d.Blow.Law); err != nil {
		add("blow.law", "a law of the catalogue", "%v", err)
	}
	f, errF := finish.Find(d.Finish.Type)
	if errF != nil {
		add("finish.type", names(finish.Names(), d.Finish.Type), "no finish card %q", d.Finish.Type)
	}
	c, errC := closure.Find(d.Closure.Type)
	if errC != nil {
		add("closure.type", names(closure.Names(), d.Closure.Type), "no closure card %q", d.Closure.Type)
	}
	if errF == nil {
		doc.compareFinish(f)
	}
	if errF == nil && errC == nil {
		if err := c.Fits(f.ThreadOD, f.Pitch, f.Starts); err != nil {
			add("closure.type", "a closure for this neck", "%v", err)
		}
	}
}

// offCard is how far a written dimension may lie outside the range of its data
// card before the document warns. Chosen for this project.
const offCard = 0.05

// compareFinish warns of values that are not those of the finish they are
// written for: a thread is cut for one bore and one mass.
func (doc *Document) compareFinish(f finish.Finish) {
	for _, v := range []struct {
		path, key string
		value     float64
		kind      unit.Kind
	}{
		{"finish.mass", "mass", doc.Design.Finish.Mass, unit.Mass},
		{"finish.bore", "bore", doc.Design.Finish.Bore, unit.Length},
		{"finish.height", "height", doc.Design.Finish.Height, unit.Length},
		{"finish.seal_diameter", "seal_od", doc.Design.Finish.Seal, unit.Length},
	} {
		d, ok := f.Card.Get(v.key)
		if !ok || v.value >= d.Low*(1-offCard) && v.value <= d.High*(1+offCard) {
			continue
		}
		doc.Warnings = append(doc.Warnings, doc.place(v.path, show(v.kind, d.Low)+" to "+show(v.kind, d.High)+", or another finish.type",
			"%s is not what the card %s says (%s)", show(v.kind, v.value), f.Name, d.Label))
	}
}

func gradeNames() []string {
	var out []string
	for _, g := range resin.Grades() {
		out = append(out, g.Name)
	}
	return out
}

func names(all []string, word string) string {
	s := "one of " + strings.Join(all, ", ")
	if near := nearest(word, all); near != "" {
		s += " (nearest: " + near + ")"
	}
	return s
}

// checkShape reports dimensions of the bottle that contradict each other.
func (doc *Document) checkShape(add faultFunc) {
	b := doc.Design.Bottle
	mm := func(x float64) string { return strconv.FormatFloat(x*1e3, 'f', 1, 64) + " mm" }
	if b.PanelTo <= b.PanelFrom {
		add("bottle.panel_to", "above panel_from ("+mm(b.PanelFrom)+")", "the panel ends at %s, not above its beginning", mm(b.PanelTo))
	}
	ledge := b.Height - doc.Design.Finish.Height
	if b.PanelTo > ledge {
		add("bottle.panel_to", "below the support ledge at "+mm(ledge), "the panel ends at %s", mm(b.PanelTo))
	}
	if b.PanelDiameter > b.Diameter {
		add("bottle.panel_diameter", "at most the body diameter of "+mm(b.Diameter), "the panel diameter is %s", mm(b.PanelDiameter))
	}
	if b.Base.Standing > b.Diameter {
		add("bottle.base.standing_diameter", "at most the body diameter of "+mm(b.Diameter), "the standing diameter is %s", mm(b.Base.Standing))
	}
	if h := b.Base.Height; b.Base.Type == "petaloid" && h > 0 && b.Base.PushUp >= h {
		add("bottle.base.push_up", "less than the base height of "+mm(h), "the gate of a petaloid base at %s is not below the top of its feet", mm(b.Base.PushUp))
	}
	rising := func(path string, planes []float64) {
		for i := 1; i < len(planes); i++ {
			if planes[i] <= planes[i-1] {
				add(path+"["+strconv.Itoa(i)+"]", "rising heights", "the plane at %s is not above the one before", mm(planes[i]))
			}
		}
		if n := len(planes); n != 2 {
			add(path, "two planes: base to panel, panel to shoulder", "%d planes", n)
		}
	}
	rising("bottle.planes", b.Planes)
	held := func(path, what string, planes []float64) {
		if len(planes) == 0 {
			return
		}
		rising(path, planes)
		if z := planes[len(planes)-1]; z >= ledge {
			add(path, "below the support ledge at "+mm(ledge), "the upper plane of the "+what+" stands at %s", mm(z))
		}
	}
	held("bottle.parts", "sections", b.Parts)
	if t := doc.Design.Preform.Targets; t != nil {
		held("preform.section_targets.planes", "targets", t.Planes)
	}
	if n := len(b.Profile); n > 0 && len(doc.Marks["bottle.profile"].Source) == 0 {
		top := b.Profile[n-1].Z
		if diff := top - ledge; diff > 0.5e-3 || diff < -0.5e-3 {
			add("bottle.height", "profile top plus finish height: "+mm(top+doc.Design.Finish.Height), "the height of %s does not fit the profile, which ends at %s under a finish of %s", mm(b.Height), mm(top), mm(doc.Design.Finish.Height))
		}
	}
	if len(b.Profile) > 1 && doc.Marks["bottle.profile"].Kind == figure.Given {
		largest := 0.0
		for _, p := range b.Profile {
			largest = max(largest, p.R)
		}
		const off = 0.6e-3 // of a diameter
		if d := 2 * largest; abs(d-b.Diameter) > off {
			add("bottle.diameter", mm(d)+", or leave it out", "the diameter of %s is not that of the profile", mm(b.Diameter))
		}
		if d := 2 * profileRadius(b.Profile, (b.PanelFrom+b.PanelTo)/2); d > 0 && abs(d-b.PanelDiameter) > off {
			add("bottle.panel_diameter", mm(d)+", or leave it out", "the panel diameter of %s is not that of the profile in the middle of the panel", mm(b.PanelDiameter))
		}
	}
	for i, p := range b.Profile {
		if _, _, err := Via(p.Via); err != nil {
			add("bottle.profile["+strconv.Itoa(i)+"].via", "line, curve, or arc and a radius such as arc 35 mm", "%v", err)
		}
	}
}

// checkFeet reports a number of feet or ribs that the base cannot have.
func (doc *Document) checkFeet(add, warn faultFunc) {
	const path = "bottle.base.feet"
	b := doc.Design.Bottle.Base
	it, _ := Lookup(path)
	what := map[string]string{"petaloid": "feet", "ribbed": "ribs"}[b.Type]
	switch {
	case what != "" && b.Feet < 3:
		add(path, "3 to "+it.Field.Max+", or leave it out for the template's", "a %s base with %d %s: it stands on at least three", b.Type, b.Feet, what)
	case what == "" && b.Feet > 0 && doc.Marks[path].Kind == figure.Given:
		warn(path, "0, or bottle.base.type: petaloid or ribbed", "a %s base has neither feet nor ribs: the %d have no effect", b.Type, b.Feet)
	}
}

// checkPreform reports a preform that cannot be made or blown.
func (doc *Document) checkPreform(add, warn faultFunc) {
	p, b := doc.Design.Preform, doc.Design.Bottle
	outer := p.InnerDiameter + 2*p.Wall
	if outer >= b.PanelDiameter {
		add("preform.wall", "an outer diameter well below the panel diameter", "the preform is %s wide, the bottle panel only %s", show(unit.Length, outer), show(unit.Length, b.PanelDiameter))
	}
	if room, long := b.Height-doc.Design.Finish.Height, p.Body+outer/2; long >= room {
		add("preform.body_length", "below "+show(unit.Length, room-outer/2)+", the bottle under its ledge less the end cap; a preform is stretched to 2 to 3 times its length",
			"the preform reaches %s below the ledge, the bottle only %s", show(unit.Length, long), show(unit.Length, room))
	}
	if p.Taper == 0 && abs(p.NeckWall-p.Wall) > 1e-9 && doc.Marks["preform.neck_wall"].Kind == figure.Given {
		warn("preform.neck_wall", "preform.taper_length above ‹0 mm›, the length over which the neck wall grows to the wall; or neck_wall the same as wall",
			"the neck wall of %s has no effect: preform.taper_length is 0, so the wall is %s up to the support ledge", show(unit.Length, p.NeckWall), show(unit.Length, p.Wall))
	}
	if p.Taper > p.Body {
		add("preform.taper_length", "at most body_length", "the taper is longer than the body")
	}
	if p.Gate > p.Wall*1.2 {
		add("preform.gate", "at most 1.2 times the body wall", "the gate wall of %s is thicker than the body wall of %s allows", show(unit.Length, p.Gate), show(unit.Length, p.Wall))
	}
}

// Via reads how a segment of the profile is drawn: "line", "curve" or "arc R"
// with a signed radius; the radius is in m.
func Via(text string) (word string, radius float64, err error) {
	word, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	switch {
	case word == "":
		return "line", 0, nil
	case (word == "line" || word == "curve") && strings.TrimSpace(rest) == "":
		return word, 0, nil
	case word == "arc":
		v, err := unit.Parse(unit.Length, strings.TrimSpace(rest))
		if err != nil {
			return "", 0, err
		}
		return "arc", v.SI, nil
	}
	return "", 0, &viaError{text}
}

type viaError struct{ text string }

func (e *viaError) Error() string { return strconv.Quote(e.text) + " is no way to draw a segment" }

// gasOf shows a carbonation that may be left out.
func gasOf(c *float64) string {
	if c == nil {
		return "none is given"
	}
	return show(unit.Carbonation, *c)
}
