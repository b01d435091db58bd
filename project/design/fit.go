package design

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"costrel/figure"
	"costrel/num/root"
	"costrel/physics/bottle"
	"costrel/unit"
)

var errNoFit = errors.New("no bottle in the proportions of the pack class holds the volume: base, panel and shoulder need their room")

// fit gives the draft the main dimensions that its answers ask for.
func (w *draft) fit() error {
	t := w.from.Design
	old, err := measure(t)
	if err != nil {
		return fmt.Errorf("template %s: %w", w.class, err)
	}
	target := w.to.Brief.Nominal * old.brimful / t.Brief.Nominal
	_, high := w.text["bottle.height"]
	_, wide := w.text["bottle.diameter"]
	D, H := w.to.Bottle.Diameter, w.to.Bottle.Height
	s := math.Cbrt(target / old.brimful)
	switch {
	case high && wide:
	case high:
		D, err = w.seek(t.Bottle.Diameter*s, 0.1e-3, target, func(x float64) (float64, float64) { return x, H })
	default:
		if !wide {
			// The proportions of the body decide; the finish does not grow.
			slim := (t.Bottle.Height - t.Finish.Height) / t.Bottle.Diameter
			D, err = w.seek(t.Bottle.Diameter*s, 1e-3, target, func(x float64) (float64, float64) { return x, w.to.Finish.Height + slim*x })
		}
		if err == nil {
			H, err = w.seek(t.Bottle.Height*s, 1e-3, target, func(x float64) (float64, float64) { return D, x })
		}
	}
	if err != nil {
		return err
	}
	w.scale(D, H, true)
	now, err := measure(w.to)
	if err != nil {
		return errNoFit
	}
	w.share = now.brimful/w.to.Brief.Nominal - 1
	if was := old.brimful/t.Brief.Nominal - 1; w.share < 0.3*was || w.share > 3*was {
		mL := func(v float64) string { return show(unit.Volume, v) }
		return fmt.Errorf("a bottle of %s height and %s diameter holds %s brimful, which leaves %s headspace for %s: give only one of the two",
			show(unit.Length, w.to.Bottle.Height), show(unit.Length, w.to.Bottle.Diameter), mL(now.brimful),
			unit.Format(unit.Fraction, w.share, "%", 2), mL(w.to.Brief.Nominal))
	}
	w.preform(old, now)
	if err := w.recipe(); err != nil {
		return err
	}
	w.volumes()
	w.dimensions()
	return nil
}

// size is what a bottle measures.
type size struct {
	brimful float64 // m³, with the nominal wall
	arc     float64 // m, of the outer profile from axis to ledge
}

func measure(d *Design) (size, error) {
	b, err := bottle.New(d.Shape())
	if err != nil {
		return size{}, err
	}
	in, err := b.Nominal()
	if err != nil {
		return size{}, err
	}
	return size{in.Brimful(), b.ArcLength()}, nil
}

// seek returns the dimension near start, on the given step, with which the
// draft holds the target volume [m³] best. at returns diameter and height [m]
// of it.
func (w *draft) seek(start, step, target float64, at func(float64) (D, H float64)) (float64, error) {
	var failed error
	holds := func(x float64, rounded bool) float64 {
		D, H := at(x)
		w.scale(D, H, rounded)
		m, err := measure(w.to)
		if err != nil {
			failed = errNoFit
			return math.NaN()
		}
		return m.brimful/target - 1
	}
	exact := func(x float64) float64 { return holds(x, false) }
	a, b, err := root.Expand(exact, start*0.98, start*1.02, start/4, start*4)
	if err == nil {
		start, err = root.Brent(exact, a, b, step/10)
	}
	if err != nil {
		if failed != nil {
			return 0, failed
		}
		return 0, errNoFit
	}
	// What follows is rounded too, so a neighbour may fit better.
	best, miss := 0.0, math.Inf(1)
	for i := -2.0; i <= 2; i++ {
		x := round(start+i*step, step)
		if off := math.Abs(holds(x, true)); off < miss {
			best, miss = x, off
		}
	}
	if math.IsInf(miss, 1) {
		return 0, failed
	}
	return best, nil
}

// scale gives the draft a diameter and a height; the base grows with the
// diameter, the heights between base and ledge with the height. What follows
// from the two is rounded when asked.
func (w *draft) scale(D, H float64, rounded bool) {
	grid := func(v, step float64) float64 {
		if rounded {
			return round(v, step)
		}
		return v
	}
	t, b := w.from.Design, &w.to.Bottle
	sd := D / t.Bottle.Diameter
	b.Diameter, b.Height = D, H
	keep := func(path string, to *float64, v float64) {
		if _, answered := w.text[path]; !answered {
			*to = v
		}
	}
	mm := func(v float64) float64 { return grid(v, 1e-3) }
	keep("bottle.panel_diameter", &b.PanelDiameter, grid(D-(t.Bottle.Diameter-t.Bottle.PanelDiameter)*math.Sqrt(sd), 0.1e-3))
	keep("bottle.base.height", &b.Base.Height, mm(t.Bottle.Base.Height*sd))
	keep("bottle.base.standing_diameter", &b.Base.Standing, mm(t.Bottle.Base.Standing*sd))
	keep("bottle.base.push_up", &b.Base.PushUp, grid(t.Bottle.Base.PushUp*math.Sqrt(sd), 0.5e-3))
	l0, l1 := t.Bottle.Height-t.Finish.Height, H-w.to.Finish.Height
	h0, h1 := t.Bottle.Base.Height, b.Base.Height
	up := func(z float64) float64 { // a height of the template in the draft
		if z <= h0 {
			return mm(z * h1 / h0)
		}
		return mm(h1 + (z-h0)*(l1-h1)/(l0-h0))
	}
	keep("bottle.panel_from", &b.PanelFrom, up(t.Bottle.PanelFrom))
	keep("bottle.panel_to", &b.PanelTo, up(t.Bottle.PanelTo))
	b.Planes = b.Planes[:0:0]
	for _, z := range t.Bottle.Planes {
		b.Planes = append(b.Planes, up(z))
	}
	doc := Document{Design: w.to}
	b.Profile = Outline(*b, l1, doc.neckRadius())
}

// preform keeps the stretch ratios of the template: the core grows with the
// diameter as far as bore and neck let it, the body with the length of the
// profile. Walls stay.
func (w *draft) preform(old, now size) {
	t, p := w.from.Design, &w.to.Preform
	if _, answered := w.text["preform.inner_diameter"]; !answered {
		d := t.Preform.InnerDiameter * w.to.Bottle.PanelDiameter / t.Bottle.PanelDiameter
		// Below the ledge the mould lets the preform stand a little through its neck.
		neck := (&Document{Design: w.to}).neckRadius()
		over := math.Max(neckOver, t.Preform.InnerDiameter/2+t.Preform.NeckWall-(&Document{Design: t}).neckRadius())
		p.InnerDiameter = round(min(d, w.to.Finish.Bore-coreClearance, 2*(neck+over-p.NeckWall)-0.05e-3), 0.1e-3)
	}
	if _, answered := w.text["blow.rod_diameter"]; !answered {
		if most := math.Floor((p.InnerDiameter-rodPlay)/0.5e-3+1e-6) * 0.5e-3; most < w.to.Blow.RodDiameter {
			w.to.Blow.RodDiameter = most
			w.text["blow.rod_diameter"] = mmText(most)
		}
	}
	if _, answered := w.text["preform.body_length"]; !answered {
		arc := func(q Preform, body float64) float64 { return body + math.Pi/4*(q.InnerDiameter+q.Wall) }
		l := arc(t.Preform, t.Preform.Body) * now.arc / old.arc
		p.Body = round(l-arc(*p, 0), 0.5e-3)
	}
	if _, answered := w.text["preform.taper_length"]; !answered {
		p.Taper = round(t.Preform.Taper*p.Body/t.Preform.Body, 0.5e-3)
	}
}

// recipe gives the high stage of the draft its delay, where the template has
// one: the rod has another way to go, and the pre-blow another volume to fill
// through the same orifice.
func (w *draft) recipe() error {
	t, d := w.from.Design, w.to
	if _, answered := w.text["blow.high_delay"]; answered || t.Blow.HighDelay == 0 {
		return nil
	}
	was, err := blowing(t)
	if err != nil {
		return err
	}
	now, err := blowing(d)
	if err != nil {
		return err
	}
	delay := now.rod + (t.Blow.HighDelay-was.rod)*now.air/was.air
	w.text["blow.high_delay"] = digits(1e3*round(delay, 5e-3), 4) + " ms"
	return nil
}

// effort is the time of the rod [s] and the volume that the pre-blow fills [m³].
type effort struct{ rod, air float64 }

func blowing(d *Design) (effort, error) {
	b, err := bottle.New(d.Shape())
	if err != nil {
		return effort{}, err
	}
	p := d.Preform
	tip := p.Body + p.InnerDiameter/2
	return effort{rod: max(b.LedgeZ()-d.Bottle.Base.PushUp-d.Blow.RodGap-tip, 0) / d.Blow.RodSpeed, air: b.OuterVolume() + d.Blow.DeadVolume}, nil
}

// coreClearance is how much narrower than the bore a preform core stays [m].
// Chosen for this project: the core must leave the finish.
const coreClearance = 0.8e-3

// rodPlay is what the rod of a draft leaves free of the core, in diameter [m].
// Chosen for this project.
const rodPlay = 1e-3

// neckOver is how far the preform of a draft may stand through the neck of the
// mould [m], where that of the template does not stand further; a blow refuses
// more than 1 mm. Chosen for this project.
const neckOver = 0.8e-3

// volumes puts the template's limits on volumes in proportion.
func (w *draft) volumes() {
	ratio := w.to.Brief.Nominal / w.from.Design.Brief.Nominal
	if ratio == 1 {
		return
	}
	for _, l := range w.from.Design.Limits {
		e, ok := figure.Find(l.Figure)
		if !ok || e.Kind != unit.Volume {
			continue
		}
		if q, err := unit.Parse(e.Kind, l.Value); err == nil {
			step := 1e-6
			if q.SI*ratio < 10e-6 {
				step = 0.5e-6
			}
			l.Value = unit.Format(e.Kind, math.Max(round(q.SI*ratio, step), step), "mL", 6)
			w.limits = append(w.limits, l)
		}
	}
}

// dimensions writes the numbers that differ from the template's.
func (w *draft) dimensions() {
	for _, it := range Walk() {
		section := it.Path[:max(strings.IndexByte(it.Path, '.'), 0)]
		if _, answered := w.text[it.Path]; answered || section != "bottle" && section != "preform" {
			continue
		}
		a, _, has := w.from.Design.Number(it.Path)
		b, _, _ := w.to.Number(it.Path)
		if has && math.Abs(a-b) > 1e-7 {
			w.text[it.Path] = mmText(b)
		}
	}
	a, b := w.from.Design.Bottle.Planes, w.to.Bottle.Planes
	changed := len(a) != len(b)
	cells := make([]string, len(b))
	for i := range b {
		cells[i] = mmText(b[i])
		changed = changed || math.Abs(a[i]-b[i]) > 1e-7
	}
	if changed {
		w.text["bottle.planes"] = "[" + strings.Join(cells, ", ") + "]"
	}
}

func mmText(v float64) string { return digits(v*1e3, 5) + " mm" }

func round(v, step float64) float64 {
	n := math.Round(v / step)
	if inv := math.Round(1 / step); math.Abs(inv*step-1) < 1e-9 {
		return n / inv
	}
	return n * step
}
