package run

import (
	"math"

	"costrel/physics/preform"
)

// Geometry is what the page draws, in m; masses in kg.
type Geometry struct {
	Bottle  BottleDrawing  `json:"bottle"`
	Preform PreformDrawing `json:"preform"`
	Zones   []Zone         `json:"zones"`
}

// BottleDrawing is the half-section of the bottle from the gate to the ledge.
type BottleDrawing struct {
	S      []float64 `json:"s"` // arc length from the gate
	Z      []float64 `json:"z"`
	R      []float64 `json:"r"`    // outer face
	ZI     []float64 `json:"zi"`   // inner face
	RI     []float64 `json:"ri"`   // inner face
	Wall   []float64 `json:"wall"` // empty when the wall could not be computed
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
// ledge.
type PreformDrawing struct {
	ZO []float64 `json:"zo"`
	RO []float64 `json:"ro"`
	ZI []float64 `json:"zi"`
	RI []float64 `json:"ri"`
}

// Zone is one section with its weight.
type Zone struct {
	Name string  `json:"name"`
	From float64 `json:"from"`
	To   float64 `json:"to"`
	Mass float64 `json:"mass"`
}

// geometry gathers what the page draws; nil when there is no bottle.
func geometry(done map[string]*entry) *Geometry {
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
	for i, z := range s.Planes {
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
			g.Zones = append(g.Zones, wall.Zones...)
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
	if p := done["preform"]; p != nil && p.err == nil {
		g.Preform = preformDrawing(p.out.(*Preform).Body)
	}
	return g
}

// preformDrawing returns the two faces of a preform from the gate to the ledge.
func preformDrawing(p *preform.Preform) PreformDrawing {
	var d PreformDrawing
	const n = 81
	rm, arc, capArc := p.MidRadius(), p.ArcLength(), p.CapArc()
	length := p.LengthBelowLedge()
	for i := range n {
		s := arc * float64(i) / (n - 1)
		sec := p.At(s)
		if s < capArc {
			// On the hemisphere the wall lies across the radius from its centre.
			a := s / rm
			centre := length - sec.Wall/2 - rm
			d.ZO = append(d.ZO, centre+(rm+sec.Wall/2)*math.Cos(a))
			d.RO = append(d.RO, (rm+sec.Wall/2)*math.Sin(a))
			d.ZI = append(d.ZI, centre+(rm-sec.Wall/2)*math.Cos(a))
			d.RI = append(d.RI, (rm-sec.Wall/2)*math.Sin(a))
			continue
		}
		d.ZO, d.RO = append(d.ZO, sec.BelowLedge), append(d.RO, sec.Ro)
		d.ZI, d.RI = append(d.ZI, sec.BelowLedge), append(d.RI, sec.Ri)
	}
	return d
}

// preformInside returns the inner volume of a preform below the ledge [m³].
func preformInside(p *preform.Preform) float64 {
	d := preformDrawing(p)
	v := 0.0
	for i := 1; i < len(d.ZI); i++ {
		a, b := d.RI[i-1], d.RI[i]
		v += math.Pi / 3 * (a*a + a*b + b*b) * (d.ZI[i-1] - d.ZI[i])
	}
	return math.Max(0, v)
}
