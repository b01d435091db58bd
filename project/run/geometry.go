package run

import (
	"math"

	"costrel/physics/preform"
	"costrel/project/design"
)

// Geometry is what the page draws, in m; masses in kg.
type Geometry struct {
	Bottle  BottleDrawing  `json:"bottle"`
	Preform PreformDrawing `json:"preform"`
	Zones   []Zone         `json:"zones"`
	// Buckling is the mode under top load; full checks only.
	Buckling *Buckling `json:"buckling,omitempty"`
}

// BottleDrawing is the half-section of the bottle from the gate to the ledge.
type BottleDrawing struct {
	S      Numbers   `json:"s"` // arc length from the gate
	Z      Numbers   `json:"z"`
	R      Numbers   `json:"r"`    // outer face
	ZI     Numbers   `json:"zi"`   // inner face
	RI     Numbers   `json:"ri"`   // inner face
	Wall   Numbers   `json:"wall"` // empty when the wall could not be computed
	Planes []Plane   `json:"planes"`
	Panel  []float64 `json:"panel"` // from, to
	FillZ  float64   `json:"fill_z"`
	Height float64   `json:"height"`
	LedgeZ float64   `json:"ledge_z"`
	Bore   Bore      `json:"bore"`
	NeckOD float64   `json:"finish_od"` // outer diameter above the ledge
}

// Bore is the inside of the finish above the ledge.
type Bore struct {
	R      float64 `json:"r"`
	Height float64 `json:"height"`
}

// Plane is a cut plane.
type Plane struct {
	Z     float64 `json:"z"`
	Label string  `json:"label"`
}

// PreformDrawing is the half-section of the preform, z downward from the
// ledge; the inner radius is 0 in the floor of the end cap.
type PreformDrawing struct {
	Z  Numbers `json:"z"`
	RO Numbers `json:"ro"`
	RI Numbers `json:"ri"`
}

// Zone is one section with its weight.
type Zone struct {
	Name  string  `json:"name"`
	From  float64 `json:"from"`
	To    float64 `json:"to"`
	Grams float64 `json:"grams"`
}

// geometry gathers what the page draws; nil when there is no bottle.
func geometry(d *design.Design, done map[string]*entry) *Geometry {
	e := done["bottle"]
	if e == nil || e.err != nil {
		return nil
	}
	s := e.out.(*Shape)
	g := &Geometry{Zones: []Zone{}}
	b := &g.Bottle
	b.FillZ, b.Height, b.LedgeZ = s.Level.Z, s.Bottle.Height(), s.Bottle.LedgeZ()
	b.Bore = Bore{R: s.Bottle.Spec().BoreDiameter / 2, Height: s.Bottle.Spec().BoreHeight}
	b.NeckOD = 2 * s.Bottle.Spec().Rows[len(s.Bottle.Spec().Rows)-1].R
	b.Panel = []float64{s.Panel[0], s.Panel[1]}
	for i, z := range s.cut(d) {
		b.Planes = append(b.Planes, Plane{Z: z, Label: []string{"base / panel", "panel / shoulder"}[min(i, 1)]})
	}
	const n = 241
	if st, err := s.Bottle.Stations(n); err == nil {
		t := make([]float64, len(st.S))
		if w := done["wall"]; w != nil && w.err == nil {
			wall := w.out.(*Wall)
			for i := range t {
				t[i], _ = wall.Along.At(st.S[i])
			}
			b.Wall = t
		} else {
			for i := range t {
				t[i] = s.Bottle.Spec().Wall
			}
			b.Wall = []float64{}
		}
		b.S, b.Z, b.R = st.S, st.Z, st.R
		for i := range t {
			b.ZI = append(b.ZI, st.Z[i]-t[i]*st.NZ[i])
			b.RI = append(b.RI, math.Max(0, st.R[i]-t[i]*st.NR[i]))
		}
	}
	if s := done["section"]; s != nil && s.err == nil {
		g.Zones = s.out.(*Sections).Zones
	}
	if s := done["strength"]; s != nil && s.err == nil {
		g.Buckling = s.out.(*Strength).Buckling
	}
	if p := done["preform"]; p != nil && p.err == nil {
		g.Preform = preformDrawing(p.out.(*Preform).Body)
	}
	return g
}

// preformDrawing returns the two faces of a preform from the ledge to the
// gate, at the same heights.
func preformDrawing(p *preform.Preform) PreformDrawing {
	spec := p.Spec()
	length, rm := p.LengthBelowLedge(), p.MidRadius()
	gate := spec.GateWall
	tube := p.ArcLength() - p.CapArc()
	centre := length - gate/2 - rm // of the end cap, below the ledge
	var d PreformDrawing
	add := func(z, ro, ri float64) {
		d.Z, d.RO, d.RI = append(d.Z, z), append(d.RO, ro), append(d.RI, ri)
	}
	const n = 40
	for i := range n {
		s := p.CapArc() + tube*(1-float64(i)/(n-1))
		sec := p.At(s)
		add(sec.BelowLedge, sec.Ro, sec.Ri)
	}
	for i := 1; i <= n; i++ {
		// Half circles round the centre of the cap, denser towards the tip.
		a := math.Pi / 2 * float64(i) / n
		z := centre + (rm+gate/2)*math.Sin(a)
		ro := (rm + gate/2) * math.Cos(a)
		ri := 0.0
		if h := z - centre; h < rm-gate/2 {
			ri = math.Sqrt((rm-gate/2)*(rm-gate/2) - h*h)
		}
		add(z, math.Max(0, ro), ri)
	}
	return d
}

// preformInside returns the inner volume of a preform below the ledge [m³].
func preformInside(p *preform.Preform) float64 {
	d := preformDrawing(p)
	v := 0.0
	for i := 1; i < len(d.Z); i++ {
		a, b := d.RI[i-1], d.RI[i]
		v += math.Pi / 3 * (a*a + a*b + b*b) * (d.Z[i] - d.Z[i-1])
	}
	return math.Max(0, v)
}
