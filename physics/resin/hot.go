package resin

import (
	"fmt"
	"math"
	"strings"
)

// HotState is what a point of hot wall remembers. The wall's principal axes
// are the meridian (1), the hoop (2) and the normal (3); strains are
// logarithmic, the wall keeps its volume, so the third value is minus the sum
// of the two.
type HotState struct {
	Strain [2]float64 // total strain
	Bond   [2]float64 // deviatoric stress of the bond part [Pa]
	Net    [2]float64 // strain of the entanglement network
	NetMax float64    // greatest principal network stretch so far
	NetUp  float64    // rise of its logarithm in the last step, where [HotState.Reach] took it [1/s]
	LogTau float64    // log of the relaxation time of the bond part [log s]
	Path   float64    // accumulated equivalent strain
}

// Rest is the state of a wall that was never stretched.
func Rest() HotState { return HotState{NetMax: 1, LogTau: -6} }

// Reach takes a state that an update of a step of length dt [s] found at the
// share theta of it to its end, where the strains are e1 and e2: what adds up
// over time goes on in proportion, the bond stress relaxes on.
func (s *HotState) Reach(from *HotState, e1, e2, theta, dt float64) {
	s.Strain[0], s.Strain[1] = e1, e2
	y := dt * math.Exp(-s.LogTau)
	left, gone := math.Exp(-y*theta), -math.Expm1(-y*theta)
	for i := range s.Net {
		s.Net[i] = from.Net[i] + (s.Net[i]-from.Net[i])/theta
		steady := (s.Bond[i] - from.Bond[i]*left) / gone
		s.Bond[i] = from.Bond[i] + (steady-from.Bond[i])*-math.Expm1(-y)
	}
	s.NetMax = max(from.NetMax, math.Exp(max(s.Net[0], s.Net[1], -s.Net[0]-s.Net[1])))
	s.NetUp = math.Log(s.NetMax/from.NetMax) / dt
	s.Path = from.Path + (s.Path-from.Path)/theta
}

// HotStep holds what a law needs of one time step at one point, made by
// Prepare and read by Update. It is plain memory, reused without allocation.
type HotStep struct {
	Dt, T float64 // [s], [K]
	Clamp Clamp   // what was held at the edge of its range

	c [8]float64
}

// HotResponse is the answer of a law: the in-plane stresses over the normal
// stress, and their derivatives by the increments of strain.
type HotResponse struct {
	Stress  [2]float64    // sigma_1 - sigma_3, sigma_2 - sigma_3 [Pa]
	Tangent [2][2]float64 // d Stress_i / d increment_j [Pa]
	Locked  float64       // 1 - alpha² I1 of the network: 1 slack, 0 locked
}

// Clamp names the quantities held at the edge of the range of a law.
type Clamp uint8

// The clamps.
const (
	ClampCold Clamp = 1 << iota // temperature below the range
	ClampHot                    // temperature above the range
	ClampSlow                   // rate below the range
	ClampFast                   // rate above the range
	ClampCritical
)

// String lists the clamps in words.
func (c Clamp) String() string {
	var s []string
	for i, w := range []string{
		"temperature held at the lower limit", "temperature held at the upper limit", "rate held at the lower limit",
		"rate held at the upper limit", "critical network stretch held at its lower limit",
	} {
		if c&(1<<i) != 0 {
			s = append(s, w)
		}
	}
	return strings.Join(s, ", ")
}

// HotLaw is a law of PET between about 85 and 115 °C, in principal axes and
// under plane stress of a wall that keeps its volume.
//
// A step is taken in two moves. Prepare gathers what depends on temperature
// T [K], step dt [s], the greatest principal nominal rate [1/s] and theta, the
// smaller over the larger in-plane rate (0..1), all held over the step. Update
// then answers for increments of strain, as often as an iteration asks,
// without changing from. Neither allocates.
type HotLaw interface {
	// Name identifies the law in a design file.
	Name() string
	// Title says what it is, and Source gives the key of its source.
	Title() string
	Source() string
	Prepare(step *HotStep, from *HotState, T, dt, rate, theta float64)
	Update(step *HotStep, from *HotState, d1, d2 float64, to *HotState, out *HotResponse)
	// Stored returns the energy [J/m³] that the state gives back when unloaded.
	Stored(s *HotState, T float64) float64
	// NetInvariant returns I1 - 3 of the network, which drives crystallisation.
	NetInvariant(s *HotState) float64
	// Range warns of a temperature [K] or rate [1/s] outside what the law was
	// made for.
	Range(T, rate float64) []string
}

// HotLaws returns the catalogue of hot laws, the default first.
func HotLaws() []HotLaw {
	a, b := SetA(), SetB()
	return []HotLaw{&a, &b, DefaultViscoplastic(), DefaultYeoh()}
}

// FindHotLaw returns the hot law with the given name; empty is the default.
func FindHotLaw(name string) (HotLaw, error) {
	var names []string
	for _, l := range HotLaws() {
		if l.Name() == name || name == "" {
			return l, nil
		}
		names = append(names, l.Name())
	}
	return nil, fmt.Errorf("resin: no hot law %q; there are %s", name, strings.Join(names, ", "))
}
