package blow

// Result is what a run found.
type Result struct {
	Places  []Place // along the wall, from gate to ledge, one an element
	History []Moment
	Frames  []Frame
	Flags   []Flag
	Order   []Touch // contact in the order of time
	Balance Balance

	Filled     bool    // every part of the wall lies on the mould, or as near as corners let it
	FillTime   float64 // when it first did [s]; 0 where not filled
	End        float64 // time at ejection or at the end of a free blow [s]
	PeakRod    float64 // [N]
	PeakPre    float64 // greatest gauge pressure before the high stage [Pa]
	PeakPreAt  float64 // [s]
	RodEnd     float64 // time at which the rod stands [s]
	HighAt     float64 // time at which the high stage opens [s]; 0 without
	BubbleAt   float64 // how far the bubble reached when the rod stood, of the way from ledge to gate
	Volume     float64 // of the air inside at the end of the blow [m³]
	Mass       float64 // of the wall below the ledge [kg]
	Warnings   []string
	Steps      int
	Iterations int // of Newton, all steps
	Rejected   int // steps that were halved
}

// Place is a piece of wall: an element.
type Place struct {
	Z, R       float64 // middle of the mid-line: depth below the ledge and radius [m]
	Arc        float64 // along the mid-line from the gate [m]
	Origin     float64 // the same piece's arc on the preform from the gate [m]
	Length     float64 // along the meridian [m]
	Wall       float64 // thickness [m], at the density of the preform
	Mass       float64 // [kg]
	Axial      float64 // stretch along the meridian
	HoopIn     float64 // hoop stretch of the inner and the outer face
	HoopOut    float64
	Hoop       float64 // hoop stretch of the mid-line
	Areal      float64 // wall before over wall now
	Net        float64 // greatest network stretch, any layer
	Slack      float64 // least 1 - alpha² I1 of the network; 0 is locked
	Rate       float64 // nominal rate [1/s], mean from a tenth to nine tenths of the stretch
	BlowT      float64 // mean temperature at the end of the blow [K]
	T, TIn     float64 // at ejection: mean and inside [K]
	TOut       float64
	X          float64 // crystallinity by volume, mean
	XIn, XOut  float64
	Haze       float64 // relative quiescent crystallinity, greatest
	Touched    float64 // time of contact [s]; -1 none
	Gap        float64 // outer face to mould at the end [m]
	StressHoop float64 // mean true stress at the end of the blow [Pa]
	StressAx   float64

	span float64 // along the axis [m]
}

// Moment is one line of the course of the blow.
type Moment struct {
	Time     float64 // [s]
	Pressure float64 // gauge [Pa]
	Volume   float64 // of the air inside [m³]
	Air      float64 // mass of the air [kg]
	AirT     float64 // [K]
	RodForce float64 // [N]
	RodTip   float64 // depth [m]; 0 without rod
	Contact  float64 // share of the wall's mass on the mould
	Widest   float64 // greatest radius of the outer face [m]
	Deepest  float64 // depth of the gate [m]
}

// Frame is the wall at a time, for playback: nodes from gate to ledge.
type Frame struct {
	Time, Pressure float64
	Z, R, Wall     []float64 // mid-line and thickness [m]
}

// Touch is the contact of a node with the mould.
type Touch struct {
	Time, Z, R float64
}

// FlagKind names what a flag is about.
type FlagKind string

// The flags.
const (
	FlagNotFilled FlagKind = "not filled"
	FlagLocking   FlagKind = "locking"    // over-stretched: pearlescence
	FlagHot       FlagKind = "too hot"    // above the window of the law
	FlagCold      FlagKind = "too cold"   // below it
	FlagHaze      FlagKind = "haze"       // crystals before or without stretching
	FlagThin      FlagKind = "thin"       // wall below the limit
	FlagRate      FlagKind = "rate"       // faster than the law was made for
	FlagEject     FlagKind = "hot eject"  // leaves the mould too warm
	FlagFold      FlagKind = "fold"       // the wall folds back on itself
	FlagWindow    FlagKind = "off window" // something was held at the edge of the law
)

// Flag is something to look at, with its place.
type Flag struct {
	Kind         FlagKind
	Z, R         float64 // [m]
	Value, Limit float64 // SI
	Text         string
}

// Balance holds the closures of the run as numbers.
type Balance struct {
	MassError     float64 // relative change of the wall's mass
	VolumeError   float64 // worst |l1 l2 l3 - 1|: remembered strains, thickness by geometry
	AirError      float64 // worst relative error of p (V + Vd) = m R T over the steps
	AirStart      float64 // [kg]
	AirIn         float64 // entered less left [kg]
	AirUsed       float64 // entered up to the exhaust [kg]
	AirMassError  float64 // mass by the gas law against start and what entered, relative
	HeatStart     float64 // of the wall over 342 K [J]
	HeatEnd       float64
	HeatWork      float64 // from stretching
	HeatCrystal   float64 // from crystallising
	HeatToMould   float64
	HeatToAir     float64 // inside
	HeatToOutside float64
	HeatToRod     float64
	HeatError     float64 // relative to the start over 20 °C
}

// MassBetween returns the mass [kg] of the wall between two depths, za < zb;
// an element that is cut counts in proportion to its length along the axis.
func (r *Result) MassBetween(za, zb float64) float64 {
	var m float64
	for _, p := range r.Places {
		half := p.span / 2
		lo, hi := p.Z-half, p.Z+half
		if hi-lo < 1e-9 {
			if p.Z >= za && p.Z < zb {
				m += p.Mass
			}
			continue
		}
		m += p.Mass * max(min(hi, zb)-max(lo, za), 0) / (hi - lo)
	}
	return m
}

// WallAt returns the thickness [m] of the side wall at a depth [m], straight
// between the middles of the pieces; where the wall passes the depth more than
// once (a pushed-up base) the widest counts. It returns false outside the wall.
func (r *Result) WallAt(z float64) (float64, bool) {
	h, widest := 0.0, -1.0
	for i := 1; i < len(r.Places); i++ {
		a, b := &r.Places[i-1], &r.Places[i]
		if a.Z == b.Z || (z-a.Z)*(z-b.Z) > 0 {
			continue
		}
		w := (z - a.Z) / (b.Z - a.Z)
		if R := a.R + w*(b.R-a.R); R > widest {
			widest, h = R, a.Wall+w*(b.Wall-a.Wall)
		}
	}
	return h, widest >= 0
}
