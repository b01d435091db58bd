package preform

import (
	_ "embed"
	"fmt"
	"strings"

	"costrel/cite"
	"costrel/unit"
)

//go:embed rules.txt
var rulesText string

var rules = cite.NewDeck("physics/preform/rules.txt", rulesText)

// Class is a class of product with its own habits of stretch.
type Class string

// The product classes.
const (
	Still      Class = "still"
	CSD        Class = "csd"
	HotFill    Class = "hotfill"
	Household  Class = "household"
	Refillable Class = "refillable"
)

// Classes returns the product classes.
func Classes() []Class { return []Class{Still, CSD, HotFill, Household, Refillable} }

// RuleCards returns the rules as data: card "every" and one card a class.
func RuleCards() map[string]cite.Card { return rules.ByName() }

// Place says where a value lies against a rule.
type Place string

// The places.
const (
	Inside  Place = "inside"
	Below   Place = "below"
	Above   Place = "above"
	AtLimit Place = "at the limit" // inside the band in which the trade puts the limit
)

// Finding is a rule applied: advice, not a refusal.
type Finding struct {
	Key        string
	Label      string
	Value      float64 // SI
	Low, High  float64 // SI
	Kind       unit.Kind
	Place      Place
	Text       string // the verdict in words
	Source     string // key of a source
	Confidence string
	Note       string
}

// Review applies the rules of preform design: the walls always, the stretch
// ratios when s is given. Rules for every preform come first, then those of
// the class. It fails on an unknown class.
func (p *Preform) Review(class Class, s *Stretch) ([]Finding, error) {
	card, err := rules.Find(string(class))
	if err != nil || class == "every" {
		return nil, fmt.Errorf("preform: rules: class %q is not one of still, csd, hotfill, household, refillable", class)
	}
	every := rules.Card("every")
	w := p.spec.Wall
	var out []Finding
	add := func(c cite.Card, key string, v float64) {
		d, _ := c.Get(key)
		out = append(out, find(c.Name+"."+key, d, v))
	}
	if class != Refillable {
		add(every, "wall_limit", w)
	}
	if w < 0.0025 {
		add(every, "gate_ratio_thin", p.spec.GateWall/w)
	} else {
		add(every, "gate_ratio", p.spec.GateWall/w)
	}
	add(every, "gate_wall", p.spec.GateWall)
	add(every, "flow", (p.spec.BodyLength+p.spec.Transition.Length)/w)
	if p.spec.Transition.Length > 0 {
		add(every, "transition", p.spec.Transition.Length)
	}
	if s != nil {
		add(every, "hoop_limit", s.HoopMid)
		add(every, "axial_limit", s.AxialOverall)
		add(every, "areal_wish", s.Planar)
		add(every, "wall_ratio", s.WallRatio)
	}
	add(card, "wall", w)
	if s != nil {
		add(card, "hoop", s.HoopInner)
		add(card, "axial", s.AxialOverall)
		add(card, "areal", s.PlanarInner)
	}
	return out, nil
}

// find applies one rule.
func find(key string, d cite.Datum, v float64) Finding {
	f := Finding{
		Key: key, Label: d.Label, Value: v, Low: d.Low, High: d.High, Kind: d.Kind,
		Source: d.Source, Confidence: d.Confidence, Note: d.Note,
	}
	limit := strings.HasPrefix(d.Note, "limit")
	switch {
	case v > d.High:
		f.Place = Above
	case limit && v > d.Low:
		f.Place = AtLimit
	case !limit && v < d.Low:
		f.Place = Below
	default:
		f.Place = Inside
	}
	show := func(x float64) string {
		if d.Kind == unit.Length {
			return fmt.Sprintf("‹%.3g mm›", x*1e3)
		}
		return fmt.Sprintf("%.3g", x)
	}
	basis := "common practice"
	if d.Source != "CommonPractice" {
		basis = d.Source
	}
	switch {
	case limit && d.Low == d.High:
		f.Text = fmt.Sprintf("%s %s: limit %s, %s (%s, confidence %s)", d.Label, show(v), show(d.High), f.Place, basis, d.Confidence)
	case limit:
		f.Text = fmt.Sprintf("%s %s: limit put at %s to %s, %s (%s, confidence %s)", d.Label, show(v), show(d.Low), show(d.High), f.Place, basis, d.Confidence)
	default:
		f.Text = fmt.Sprintf("%s %s: usual %s to %s, %s (%s, confidence %s)", d.Label, show(v), show(d.Low), show(d.High), f.Place, basis, d.Confidence)
	}
	return f
}
