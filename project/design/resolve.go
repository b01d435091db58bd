package design

import (
	"fmt"
	"math"
	"strings"

	"costrel/cite"
	"costrel/figure"
	"costrel/physics/bottle"
	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/physics/resin"
	"costrel/unit"
)

// resolve fills what neither the design nor the template says: values from the
// data cards that the design names, and the profile drawn from the main
// dimensions. A card that does not exist is reported by check.
func (doc *Document) resolve() {
	d := doc.Design
	if g, err := resin.Find(d.Resin.Grade); err == nil {
		card := "card " + g.Name
		doc.fill("resin.density_preform", g.DensityAmorphous, card, source(g.Card.Get("density_amorphous")))
		doc.fill("resin.density_wall", g.DensityWall, card, source(g.Card.Get("density.wall")))
	}
	if f, err := finish.Find(d.Finish.Type); err == nil {
		card := "card " + f.Name
		doc.fill("finish.mass", f.Mass, card, source(f.Card.Get("mass")))
		doc.fill("finish.bore", f.Bore, card, source(f.Card.Get("bore")))
		doc.fill("finish.height", f.Height, card, source(f.Card.Get("height")))
		doc.fill("finish.seal_diameter", f.SealOD, card, source(f.Card.Get("seal_od")))
	}
	if c, err := closure.Find(d.Closure.Type); err == nil {
		card := "card " + c.Name
		doc.fill("closure.mass", c.Mass, card, source(c.Card.Get("mass")))
		doc.fill("closure.co2", c.CO2, card, source(c.Card.Get("conductance_co2")))
		doc.fill("closure.n2", c.N2, card, source(c.Card.Get("conductance_n2")))
		doc.fill("closure.water", c.Water, card, source(c.Card.Get("conductance_water")))
		doc.fill("closure.o2", c.O2, card, source(c.Card.Get("conductance_o2")))
		if doc.Marks["closure.tethered"].Kind == "" {
			d.Closure.Tethered = c.Tethered
			doc.Marks["closure.tethered"] = Mark{Kind: figure.Default, Source: card}
		}
	}
	// The feet of a template whose own base has none.
	b, feet := &d.Bottle.Base, "bottle.base.feet"
	if n := bottle.DefaultCount(bottle.BaseKind(b.Type)); n > 0 && b.Feet == 0 && doc.Marks[feet].Kind != figure.Given {
		b.Feet = n
		doc.Marks[feet] = Mark{Kind: figure.Default, Source: b.Type + " base, common practice"}
	}
	doc.fromProfile()
	if len(d.Bottle.Profile) == 0 {
		d.Bottle.Profile = Outline(d.Bottle, d.Bottle.Height-d.Finish.Height, doc.neckRadius())
		doc.Marks["bottle.profile"] = Mark{Kind: figure.Assumed, Source: "drawn from the main dimensions"}
	}
	for path, m := range doc.Marks {
		if m.Kind == figure.Default && m.Source == "" {
			m.Source = "template " + d.Class + ", common practice"
			doc.Marks[path] = m
		}
	}
}

// fromProfile takes the main dimensions that the design does not give from the
// profile that it gives: a template's would contradict it.
func (doc *Document) fromProfile() {
	d := doc.Design
	rows := d.Bottle.Profile
	if len(rows) < 2 || doc.Marks["bottle.profile"].Kind != figure.Given {
		return
	}
	take := func(path string, v float64) {
		if doc.Marks[path].Kind == figure.Given {
			return
		}
		d.SetNumber(path, v)
		doc.Marks[path] = Mark{Kind: figure.Assumed, Source: "from the profile"}
	}
	take("bottle.height", rows[len(rows)-1].Z+d.Finish.Height)
	largest := 0.0
	for _, r := range rows {
		largest = math.Max(largest, r.R)
	}
	take("bottle.diameter", 2*largest)
	if r := profileRadius(rows, (d.Bottle.PanelFrom+d.Bottle.PanelTo)/2); r > 0 {
		take("bottle.panel_diameter", 2*r)
	}
}

// profileRadius returns the radius of the profile at a height, rows joined by
// straight lines; 0 outside.
func profileRadius(rows []ProfileRow, z float64) float64 {
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		if a.Z <= z && z <= b.Z && b.Z > a.Z {
			return a.R + (b.R-a.R)*(z-a.Z)/(b.Z-a.Z)
		}
	}
	return 0
}

// source returns where a value of a card comes from.
func source(d cite.Datum, ok bool) string {
	if !ok {
		return ""
	}
	s := d.Source
	if d.Confidence == "low" {
		s += ", low confidence"
	}
	return s
}

// fill sets a value that is neither in the design nor in the template.
func (doc *Document) fill(path string, v float64, card, source string) {
	if doc.Marks[path].Kind != "" || math.IsNaN(v) {
		return
	}
	doc.Design.SetNumber(path, v)
	m := Mark{Kind: figure.Default, Source: card}
	if source != "" {
		m.Source += ", " + source
	}
	doc.Marks[path] = m
}

// neckRadius returns the outer radius of the bottle under the support ledge.
func (doc *Document) neckRadius() float64 {
	if f, err := finish.Find(doc.Design.Finish.Type); err == nil && f.NeckOD > 0 {
		return f.NeckOD / 2
	}
	return doc.Design.Finish.Bore/2 + 2.25e-3
}

// place makes a fault at the path: where the design wrote the value, else
// where its section stands, else at the class, whose template it comes from.
func (doc *Document) place(path, expected, format string, args ...any) Fault {
	f := Fault{File: doc.File, Path: path, Message: fmt.Sprintf(format, args...), Expected: expected}
	if m := doc.Marks[path]; m.Kind == figure.Default && m.Source != "" {
		from, _, _ := strings.Cut(m.Source, ",")
		f.Message += " (the value is from the " + from + ")"
	}
	for p := path; ; p = parent(p) {
		if p == "" {
			p = "class"
		}
		if m := doc.Marks[p]; m.Line > 0 {
			f.Line, f.Column, f.Text = m.Line, m.Column, m.Text
			return f
		}
		if p == "class" {
			return f
		}
	}
}

func parent(path string) string {
	for i := len(path) - 1; i > 0; i-- {
		if path[i] == '.' || path[i] == '[' {
			return path[:i]
		}
	}
	return ""
}

func show(k unit.Kind, v float64) string { return "‹" + unit.Show(k, v, unit.EU) + "›" }
