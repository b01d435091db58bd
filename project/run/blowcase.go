package run

import (
	"fmt"

	"costrel/physics/blow"
	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// blowCase sets the blow up from the design: profile of the bottle as mould,
// temperatures from the oven, the recipe of the process card.
func blowCase(d *design.Design, shape *Shape, p *preform.Preform, hot *Reheated) (blow.Case, error) {
	bc := blow.DefaultCase()
	if err := rodFits(d); err != nil {
		return bc, err
	}
	law, err := resin.FindHotLaw(d.Blow.Law)
	if err != nil {
		return bc, err
	}
	bc.Law = law
	grade, err := resin.Find(d.Resin.Grade)
	if err != nil {
		return bc, err
	}
	if q, err := resin.NewQuiescent(grade); err == nil {
		bc.Crystal = resin.DefaultStrainCrystal(q)
	}
	bc.Preform = midline(p)
	bc.Heat = heatTable(p, hot)
	st, err := shape.Bottle.Stations(401)
	if err != nil {
		return bc, err
	}
	// Up the body from the outer edge of the base: the disc is closed by the
	// mould itself.
	var z, r []float64
	for i := range st.S {
		if len(z) == 0 && i+1 < len(st.S) && st.Z[i] <= 1e-9 && st.Z[i+1] <= 1e-9 && st.R[i+1] > st.R[i] {
			continue
		}
		z, r = append(z, st.Z[i]), append(r, st.R[i])
	}
	ledge := shape.Bottle.LedgeZ()
	zones := []blow.Zone{{From: 0, T: d.Blow.Body}}
	if h := d.Bottle.Base.Height; h > 0 && ledge-h > 1e-3 {
		zones = append(zones, blow.Zone{From: ledge - h, T: d.Blow.Base})
	}
	if bc.Mould, err = blow.FromStanding(z, r, ledge, zones...); err != nil {
		return bc, err
	}
	if q := shape.Bottle.BaseAreaRatio(); q > 1 {
		bc.Mould.AreaRatio, bc.Mould.AreaFrom = q, ledge-d.Bottle.Base.Height
	}
	stop := ledge - shape.Bottle.Spec().Base.PushUp - d.Blow.RodGap
	tip := p.LengthBelowLedge() - d.Preform.Gate
	if travel := stop - tip; travel < 5e-3 {
		return bc, fmt.Errorf("blow: the rod has %.1f mm to stretch, at least 5 mm are needed: the preform reaches %.1f mm below the ledge, the rod stops at %.1f mm; make preform.body_length less or the bottle taller", travel*1e3, tip*1e3, stop*1e3)
	} else if d.Blow.PreStart >= travel {
		return bc, fmt.Errorf("blow: blow.pre_start %.1f mm is not inside the %.1f mm that the rod travels: make it less", d.Blow.PreStart*1e3, travel*1e3)
	}
	rc := &bc.Recipe
	rc.Pre = blow.Stage{Pressure: d.Blow.PreBlow, Area: d.Blow.PreOrifice, Discharge: 1, Start: blow.Start{ByRod: true, Travel: d.Blow.PreStart}}
	if rc.High, err = highStage(d, stop-tip); err != nil {
		return bc, err
	}
	if d.Blow.Free {
		bc.Mould, rc.High = nil, blow.Stage{}
		rc.Duration = (stop-tip)/d.Blow.RodSpeed + freeAfter
	}
	rc.Rod = blow.Rod{Fits: d.Blow.RodTip == "holding", Speed: d.Blow.RodSpeed, Stop: stop, Radius: d.Blow.RodDiameter / 2}
	rc.DeadVolume, rc.Hold, rc.Exhaust, rc.Contact, rc.Friction = d.Blow.DeadVolume, d.Blow.HighTime, d.Blow.ExhaustTime, d.Blow.Contact, d.Blow.Friction
	return bc, nil
}

// lawNote says what a law that was not made for bottles cannot do; it goes with a
// blow that failed.
func lawNote(law string) string {
	if law != "viscoplastic" && law != "yeoh" {
		return ""
	}
	return fmt.Sprintf("; the law %s (blow.law) is for comparing curves and for previews, and many bottles do not blow with it: glass-rubber-a makes them", law)
}

// rodPlay is what the rod leaves free of core and bore, in diameter [m]. Chosen
// for this project.
const rodPlay = 1e-3

// rodFits refuses a rod that does not go into the preform.
func rodFits(d *design.Design) error {
	mm := func(v float64) string { return unit.Quote(unit.Length, v, 4) }
	most := d.Preform.InnerDiameter
	if d.Finish.Bore > 0 {
		most = min(most, d.Finish.Bore)
	}
	if most -= rodPlay; d.Blow.RodDiameter <= most*(1+1e-9) {
		return nil
	}
	bore := ""
	if d.Finish.Bore > 0 {
		bore = ", bore of the finish of " + mm(d.Finish.Bore)
	}
	return fmt.Errorf("blow: blow.rod_diameter %s does not go into the preform: at most %s (preform.inner_diameter %s%s, %s of play): take a thinner rod", mm(d.Blow.RodDiameter), mm(most), mm(d.Preform.InnerDiameter), bore, mm(rodPlay))
}

// freeAfter is how long a free blow goes on after the rod stands [s]. Chosen
// for this project.
const freeAfter = 0.1

// highStage opens the second stage after a time, at a travel of the rod, or at
// the end of its travel.
func highStage(d *design.Design, travel float64) (blow.Stage, error) {
	s := blow.Stage{Pressure: d.Blow.High, Area: d.Blow.HighOrifice, Discharge: 1}
	pre := d.Blow.PreStart / d.Blow.RodSpeed
	switch {
	case d.Blow.HighDelay > 0:
		if d.Blow.HighDelay < pre {
			return s, fmt.Errorf("blow: blow.high_delay %.1f ms is before the pre-blow opens, %.1f ms after the rod touches: make it more, or blow.pre_start less", d.Blow.HighDelay*1e3, pre*1e3)
		}
		s.Start = blow.Start{Time: d.Blow.HighDelay}
	case d.Blow.HighStart > 0:
		if d.Blow.HighStart > travel || d.Blow.HighStart < d.Blow.PreStart {
			return s, fmt.Errorf("blow: blow.high_start %.1f mm is outside %.1f..%.1f mm, from blow.pre_start to the end of the rod's travel: move it inside, or take blow.high_delay", d.Blow.HighStart*1e3, d.Blow.PreStart*1e3, travel*1e3)
		}
		s.Start = blow.Start{ByRod: true, Travel: min(d.Blow.HighStart, travel*0.999)}
	default:
		s.Start = blow.Start{ByRod: true, Travel: travel * 0.999}
	}
	return s, nil
}

// midline returns the preform's mid-line from the ledge to the gate.
func midline(p *preform.Preform) blow.Preform {
	const n = 160
	var out blow.Preform
	for i := 0; i <= n; i++ {
		s := p.ArcLength() * (1 - float64(i)/n)
		sec := p.At(s)
		r := sec.Rm
		if i == n {
			r = 0
		}
		out.Z, out.R, out.Wall = append(out.Z, sec.BelowLedge), append(out.R, r), append(out.Wall, sec.Wall)
	}
	return out
}

// heatTable turns the oven's field, from the gate, into a table from the ledge.
func heatTable(p *preform.Preform, hot *Reheated) blow.Heat {
	const n, layers = 61, 9
	h := blow.Heat{X: make([]float64, layers)}
	for j := range h.X {
		h.X[j] = float64(j) / (layers - 1)
	}
	for i := range n {
		s := p.ArcLength() * float64(i) / (n - 1)
		row := make([]float64, layers)
		for j, x := range h.X {
			row[j] = float64(hot.Field.At(p.ArcLength()-s, x))
		}
		h.S, h.T = append(h.S, s), append(h.T, row)
	}
	return h
}
