package resin

import (
	"fmt"
	"math"

	"costrel/unit"
)

const boltzmann = 1.380649e-23 // J/K, exact

// Range of the glass-rubber law; its critical stretch is a straight line in
// temperature and its shifts are made for 1 1/s and more.
const (
	hotCold, hotHot   = 353.15, 391.15 // K: 80..118 °C
	rateSlow          = 1.0            // 1/s
	rateFast          = 128.0          // 1/s
	criticalLeast     = 1.2
	arrestedStretch   = 1e-9 // distance to the critical stretch that counts as arrest
	defaultLawName    = "glass-rubber-a"
	alternateLawName  = "glass-rubber-b"
	glassRubberSource = "AdamsBuckleyJones2000"
)

// GlassRubber is the glass-rubber law of PET above Tg: bonds that flow by
// Eyring's law beside an Edwards-Vilgis network of entanglements that slips
// until its greatest stretch reaches a critical one.
//
//	sigma = s_b + s_c + sigma_m 1
//	bond     ds_b/dt = 2G D' - s_b/tau,  tau = mu/(2G)
//	         mu = Viscosity exp(Cv/(T-Tinf) - Cv/(T*-Tinf)) exp(dH/R (1/T-1/T*)) (z/sinh z) exp(-Vp sigma_m/(RT))
//	         z = Vs tau_oct/(2RT),  tau_oct = sqrt(s_b:s_b/3)
//	network  s_c = dev of the Edwards-Vilgis stress of the network stretches
//	slip     D_net = D' - SlipShare s_c/gamma while lambda_max < lambda_crit, else D'
//	         gamma = gamma0 (lambda_crit - 1)/(lambda_crit - lambda_max)
//
// gamma0 and lambda_crit fall with temperature and rise or fall with rate and
// mode as in [GlassRubber.Slip]. Sources of the form: BuckleyJones1995,
// BuckleyJonesJones1996, AdamsBuckleyJones2000; of the numbers:
// MenaryEtAl2012, YanMenaryNixon2017, read from public research files.
type GlassRubber struct {
	ID, Text string

	ShearVolume, PressureVolume float64 // Vs, Vp [m³/mol]
	Viscosity                   float64 // mu0* at Reference [Pa s]; twice the shear viscosity
	Reference                   float64 // T* [K]
	Frozen, Vogel               float64 // Tinf, Cv [K]
	Activation                  float64 // dH [J/mol]
	Shear                       float64 // G [Pa]

	Alpha, Eta float64 // inextensibility, looseness of the slip links
	Links      float64 // Ns [1/m³]

	SlipShare                         float64 // 1 for s_c/gamma, 1/2 for s_c/(2 gamma)
	SlipViscosity                     float64 // gamma0 at SlipReference [Pa s]
	SlipVogel, SlipFrozen             float64 // Cs, Tinf,s [K]
	SlipReference                     float64 // T*,s [K]
	Shift1, Shift2, ShiftMode         float64 // C1, C2, beta
	CritSlope, CritOffset             float64 // k [1/K], b
	CritShift1, CritShift2, CritMixed float64 // c1, c2, beta_c
}

// SetA returns the default law: set A with the slip rate s_c/gamma.
func SetA() GlassRubber {
	return GlassRubber{
		ID: defaultLawName, Text: "glass-rubber, set A, slip s/gamma",
		ShearVolume: 2.814e-3, PressureVolume: 0.526e-3, Viscosity: 1.71e6, Reference: 358.15,
		Frozen: 328.76, Vogel: 67.47, Activation: 123e3, Shear: 600e6,
		Alpha: 0.1553, Eta: 0.001, Links: 1.8098e26,
		SlipShare: 1, SlipViscosity: 0.653e6, SlipVogel: 10612, SlipFrozen: 95.48, SlipReference: 383.15,
		Shift1: 0.1565, Shift2: 39.937, ShiftMode: 0.9878,
		CritSlope: -0.0356, CritOffset: 15.393, CritShift1: -0.0111, CritShift2: 3.627, CritMixed: 0.9856,
	}
}

// SetB returns the alternative law: set B with the slip rate s_c/(2 gamma).
// The two conventions of the slip rate pair with the two sets; at 2.0 nominal
// strain and 8 1/s they differ by less than 5 %.
func SetB() GlassRubber {
	l := SetA()
	l.ID, l.Text = alternateLawName, "glass-rubber, set B, slip s/(2 gamma)"
	l.SlipShare, l.SlipViscosity, l.SlipVogel, l.SlipFrozen = 0.5, 0.359e6, 7307.8, 152.95
	return l
}

// Name implements [HotLaw].
func (l *GlassRubber) Name() string { return l.ID }

// Title implements [HotLaw].
func (l *GlassRubber) Title() string { return l.Text }

// Source implements [HotLaw].
func (l *GlassRubber) Source() string { return glassRubberSource }

// BondViscosity returns mu [Pa s] of the bond part at T [K] and no stress.
func (l *GlassRubber) BondViscosity(T float64) float64 {
	return l.Viscosity * math.Exp(l.shift(T))
}

// shift is the log of the bond viscosity at T over that at Reference.
func (l *GlassRubber) shift(T float64) float64 {
	return l.Vogel/(T-l.Frozen) - l.Vogel/(l.Reference-l.Frozen) + l.Activation/unit.GasConstant*(1/T-1/l.Reference)
}

// Slip returns the slip viscosity gamma0 [Pa s] and the critical network
// stretch at T [K], nominal rate [1/s] and theta (smaller over larger in-plane
// rate), with what had to be clamped:
//
//	gamma0 = g exp(Cs/(Tsh - Tinf) - Cs/(T* - Tinf)),  Tsh = T 10^(C1 L/(C2 + L) beta^(2-2 xi)),  L = log2 rate
//	lambda_crit = k Tsc + b,  Tsc = T 10^(c1 (rate-1)/(c2 + rate - 1) beta_c^(2-2 xi))
//
// with xi = (2 theta + 1)/(theta + 2).
func (l *GlassRubber) Slip(T, rate, theta float64) (gamma0, critical float64, held Clamp) {
	switch {
	case T < hotCold:
		T, held = hotCold, held|ClampCold
	case T > hotHot:
		T, held = hotHot, held|ClampHot
	}
	switch {
	case !(rate >= rateSlow):
		rate, held = rateSlow, held|ClampSlow
	case rate > rateFast:
		rate, held = rateFast, held|ClampFast
	}
	theta = min(max(theta, 0), 1)
	power := 2 - 2*(2*theta+1)/(theta+2)
	L := math.Log2(rate)
	Tsh := T * math.Exp(math.Ln10*l.Shift1*L/(l.Shift2+L)*math.Exp(power*math.Log(l.ShiftMode)))
	gamma0 = l.SlipViscosity * math.Exp(l.SlipVogel/(Tsh-l.SlipFrozen)-l.SlipVogel/(l.SlipReference-l.SlipFrozen))
	Tsc := T * math.Exp(math.Ln10*l.CritShift1*(rate-1)/(l.CritShift2+rate-1)*math.Exp(power*math.Log(l.CritMixed)))
	critical = l.CritSlope*Tsc + l.CritOffset
	if critical < criticalLeast {
		critical, held = criticalLeast, held|ClampCritical
	}
	return gamma0, critical, held
}

// Indices of HotStep.c in this law.
const (
	cLogTau = iota // log of the relaxation time without stress
	cZ             // z over the norm of s_b
	cVp            // Vp/(RT)
	cNkT           // Ns k T [Pa]
	cSlip          // dt SlipShare / gamma [1/Pa], 0 when arrested
)

// Prepare implements [HotLaw].
func (l *GlassRubber) Prepare(step *HotStep, from *HotState, T, dt, rate, theta float64) {
	gamma0, critical, held := l.Slip(T, rate, theta)
	T = min(max(T, hotCold), hotHot)
	step.Dt, step.T, step.Clamp = dt, T, held
	RT := unit.GasConstant * T
	step.c[cLogTau] = math.Log(l.Viscosity/(2*l.Shear)) + l.shift(T)
	step.c[cZ] = l.ShearVolume / (2 * RT) / math.Sqrt(3)
	step.c[cVp] = l.PressureVolume / RT
	step.c[cNkT] = l.Links * boltzmann * T
	step.c[cSlip] = 0
	// arrest by the stretch that goes on rising as in the last step
	if left := critical - from.NetMax*math.Exp(min(from.NetUp*dt, 0.1)); left > arrestedStretch {
		step.c[cSlip] = dt * l.SlipShare / gamma0 * left / (critical - 1)
	}
}

// Update implements [HotLaw]: an implicit step of the network, then of the
// bond part, whose relaxation time is the only unknown of a monotone equation.
// The tangent is the exact derivative of the step.
func (l *GlassRubber) Update(step *HotStep, from *HotState, d1, d2 float64, to *HotState, out *HotResponse) {
	to.Strain[0], to.Strain[1] = from.Strain[0]+d1, from.Strain[1]+d2
	to.Path = from.Path + equivalent(d1, d2)
	var net netAnswer
	l.slipStep(step, from, d1, d2, to, &net)
	l.bondStep(step, from, d1, d2, to, &net, out)
	e3 := -to.Net[0] - to.Net[1]
	to.NetMax = max(from.NetMax, math.Exp(max(to.Net[0], to.Net[1], e3)))
	out.Locked = net.lock
}

// Stored implements [HotLaw]: elastic energy of the bond part and free energy
// of the network.
func (l *GlassRubber) Stored(s *HotState, T float64) float64 {
	b3 := -s.Bond[0] - s.Bond[1]
	bond := (s.Bond[0]*s.Bond[0] + s.Bond[1]*s.Bond[1] + b3*b3) / (4 * l.Shear)
	return bond + l.Links*boltzmann*min(max(T, hotCold), hotHot)*l.netEnergy(s.Net[0], s.Net[1])
}

// NetInvariant implements [HotLaw].
func (l *GlassRubber) NetInvariant(s *HotState) float64 { return invariant(s.Net[0], s.Net[1]) }

// Range implements [HotLaw].
func (l *GlassRubber) Range(T, rate float64) []string {
	var w []string
	if T < hotCold || T > hotHot {
		w = append(w, fmt.Sprintf("hot law %s: temperature ‹%.1f °C› outside ‹%.0f..%.0f °C›, held at the limit", l.ID, T-273.15, hotCold-273.15, hotHot-273.15))
	}
	if rate < rateSlow || rate > rateFast {
		w = append(w, fmt.Sprintf("hot law %s: rate %.3g 1/s outside %g..%g 1/s, held at the limit", l.ID, rate, rateSlow, rateFast))
	}
	if _, _, held := l.Slip(T, rate, 1); held&ClampCritical != 0 {
		w = append(w, fmt.Sprintf("hot law %s: critical network stretch at ‹%.1f °C› and %.3g 1/s below %g, held there", l.ID, T-273.15, rate, criticalLeast))
	}
	return w
}

// equivalent is the strain increment sqrt(2/3 d:d) of a traceless d.
func equivalent(d1, d2 float64) float64 {
	return 2 / math.Sqrt(3) * math.Sqrt(d1*d1+d1*d2+d2*d2)
}

// invariant is I1 - 3 of the stretches exp(e).
func invariant(e1, e2 float64) float64 {
	return math.Exp(2*e1) + math.Exp(2*e2) + math.Exp(-2*(e1+e2)) - 3
}
