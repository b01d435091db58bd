package permeation

import (
	"math"

	"costrel/num/stiff"
	"costrel/physics/climate"
	"costrel/unit"
)

// The state of the model, in this order: amounts inside [mol], water [kg],
// acid [mol], share left of the closure's scavenger, delayed strains, the
// accounts of what went where [mol], then the cells.
const (
	atWater = int(gases) + iota
	atAcid
	atLiner
	atCreep
)

// Accounts, from the first delayed strain on.
const (
	passed    = 0 // out through the outer face, by gas
	entered   = 3 // out of the drink into the wall, by gas
	closed    = 6 // out through the closure, by gas
	consumed  = 9 // oxygen, by the drink
	boundWall = 10
	boundCap  = 11
	accounts  = 12
)

// model is a pack worked out for one run: its slabs, its state and the
// workspace. It is not safe to share.
type model struct {
	pack   Pack
	course climate.Course
	solids float64 // [kg]
	ideal  bool
	age    float64 // factor on the times of creep
	acc    int     // first account
	small  int     // length of the state without cells
	size   int
	slabs  []slab

	method stiff.Tableau // of the run
	tab    stiff.Tableau // of the span at work
	stop   float64       // end of the span without a jump: read just before it

	// At the temperature.
	t        unit.Temperature
	warm     unit.Temperature // warmest and coldest hour of a calmed day; t where there is none
	cool     unit.Temperature
	in       inside
	capK     [gases]float64
	waterK   float64 // wall and closure [kg/(s·Pa)]
	kelvin   []float64
	humidity float64
	outside  [gases]float64

	p     [gases]float64
	bal   balance
	works int // Newton iterations

	// Largest change of the last one: of Newton's unknowns, of acid and liner.
	settled, slow float64
}

func newModel(p Pack, course climate.Course, cells int, tab stiff.Tableau) *model {
	m := &model{pack: p, course: course, method: tab, tab: tab, ideal: p.Liquid.Law().Ideal}
	if m.pack.Cap.Reference == 0 { // a closure that passes nothing
		m.pack.Cap.Reference = unit.ZeroCelsius
	}
	m.solids = p.Contents.Liquid * p.Liquid.MassFraction()
	age := p.Growth.Age
	if age == 0 {
		age = day
	}
	m.age = math.Min(100, math.Pow(age/day, p.Growth.AgeExponent))
	m.kelvin = make([]float64, len(p.Growth.Terms))
	m.acc = atCreep + len(p.Growth.Terms)
	m.small = m.acc + accounts
	m.size = m.small
	for z := range p.Zones {
		zone := &p.Zones[z]
		if zone.Material.Tight || zone.Area == 0 {
			continue
		}
		for g := CO2; g < gases; g++ {
			s := slab{gas: g, zone: z, area: zone.Area, dx: zone.Thickness / float64(cells), cells: cells, at: m.size, left: -1, law: zone.Material.CO2, trace: p.Contents.CO2 == 0, coats: [2]float64{zone.Inner.of(g), zone.Outer.of(g)}}
			m.size += cells
			switch g {
			case Oxygen:
				s.henry = zone.Material.Oxygen
				if zone.Scavenger.Capacity > 0 {
					s.left, s.capacity, s.rate = m.size, zone.Scavenger.Capacity, zone.Scavenger.Rate
					if s.rate == 0 {
						s.rate = ScavengeRate
					}
					m.size += cells
				}
			case Nitrogen:
				s.henry = zone.Material.Nitrogen
			}
			m.slabs = append(m.slabs, s)
		}
	}
	work := make([]float64, 7*cells*len(m.slabs))
	for i := range m.slabs {
		s := &m.slabs[i]
		for _, w := range []*[]float64{&s.theta, &s.slope, &s.diag, &s.up, &s.down, &s.step, &s.answer} {
			*w, work = work[:cells:cells], work[cells:]
		}
	}
	return m
}

// surroundings takes the lane at t and works out what depends on it.
func (m *model) surroundings(t float64) error {
	st, err := m.course.At(math.Min(t, m.stop-1e-3))
	if err != nil {
		return err
	}
	ambient := float64(st.Ambient)
	m.in.ambient = ambient
	m.humidity = st.Humidity
	for g := CO2; g < gases; g++ {
		m.outside[g] = outsideShare(g) * ambient
	}
	m.outside[CO2] = outsideCO2
	m.warm, m.cool = st.Warm, st.Cool
	if st.Temperature == m.t {
		return nil
	}
	m.t = st.Temperature
	m.in.thermal(m, m.t)
	for i := range m.slabs {
		m.slabs[i].set(m.t)
	}
	c := &m.pack.Cap
	f := Arrhenius{1, c.Energy, c.Reference}.At(m.t)
	m.capK = [gases]float64{c.CO2 * f, c.Oxygen * f, c.Nitrogen * f}
	m.waterK = c.Water
	for i := range m.pack.Zones {
		z := &m.pack.Zones[i]
		if z.Material.Tight || z.Area == 0 {
			continue
		}
		resistance := z.Thickness / z.Material.Water.At(m.t)
		for _, coat := range [...]float64{z.Inner.Water, z.Outer.Water} {
			if coat > 0 {
				resistance += 1 / coat
			}
		}
		m.waterK += z.Area / resistance
	}
	g := &m.pack.Growth
	fast := Arrhenius{1, g.Energy, g.Reference}.At(m.t) / m.age
	for i, k := range g.Terms {
		m.kelvin[i] = fast / k.Time
	}
	return nil
}

// dry returns the loss of water [kg/s].
func (m *model) dry() float64 { return m.waterK * (m.in.vapour - m.humidity*m.in.pure) }

// flows is what leaves the inside by other ways than the wall, per gas [mol/s],
// with its slopes in the partial pressures.
type flows struct {
	cap    [gases]float64
	capP   [gases][3]float64
	drink  float64 // oxygen consumed by the drink
	drinkP float64 // its slope in the partial pressure of oxygen
	liner  float64 // oxygen bound in the closure; it does not come in
}

// leave fills in the flows at the pressures p with the balance b.
func (m *model) leave(p [gases]float64, b *balance, acid, liner float64) (f flows) {
	for g := CO2; g < gases; g++ {
		f.cap[g] = m.capK[g] * (p[g] - m.outside[g])
		f.capP[g][g] = m.capK[g]
	}
	if q := &m.pack.Cap.Scavenger; q.Capacity > 0 && f.cap[Oxygen] < 0 && liner > 0 {
		held := q.Share * -math.Expm1(-20*liner)
		f.liner = -held * f.cap[Oxygen]
		f.cap[Oxygen] *= 1 - held
		f.capP[Oxygen][Oxygen] *= 1 - held
	}
	if k := m.pack.Cap.Leak; k > 0 {
		total, pa := b.total, m.in.ambient
		drive := k * (total*total - pa*pa)
		for g := CO2; g < gases; g++ {
			if drive >= 0 {
				x := p[g] / total
				f.cap[g] += drive * x
				for j := range 3 {
					f.capP[g][j] += 2*k*total*x - drive*x/total
				}
				f.capP[g][g] += drive / total
			} else {
				x := m.outside[g] / pa
				f.cap[g] += drive * x
				for j := range 3 {
					f.capP[g][j] += 2 * k * total * x
				}
			}
		}
	}
	if u := &m.pack.Uptake; u.Rate > 0 {
		left := 1.0
		if u.Acid > 0 {
			left = math.Max(acid, 0) / u.Acid
		}
		f.drink = u.Rate * b.o2liquid * left
		f.drinkP = u.Rate * m.in.air[Oxygen] * m.in.water * left
	}
	return f
}

// start returns the state at closing: drink and headspace in balance, the wall
// saturated with air.
func (m *model) start() ([]float64, error) {
	y := make([]float64, m.size)
	c := &m.pack.Contents
	y[CO2], y[Oxygen], y[Nitrogen] = c.CO2, c.Oxygen, c.Nitrogen
	y[atWater] = c.Liquid - m.solids
	y[atAcid] = m.pack.Uptake.Acid
	y[atLiner] = 1
	if err := m.surroundings(0); err != nil {
		return nil, err
	}
	for i := range m.slabs {
		s := &m.slabs[i]
		for j := range s.cells {
			y[s.at+j] = s.s.Concentration(m.outside[s.gas])
			if s.left >= 0 {
				y[s.left+j] = 1
			}
		}
	}
	m.in.fill(m, m.t, y[atWater])
	m.in.base = m.pack.Volume
	m.in.slope = m.pack.Volume * m.pack.Growth.Elastic
	n := [gases]float64{y[0], y[1], y[2]}
	p, err := m.in.enclose(n, [gases]float64{})
	if err == nil {
		m.p, err = m.in.solve(n, p, &m.bal)
	}
	if err != nil {
		return nil, fault(0, err)
	}
	for i := range m.slabs {
		s := &m.slabs[i]
		s.scale = s.s.Concentration(math.Max(m.p[s.gas], m.outside[s.gas]) + 1e3)
	}
	return y, nil
}

// explicit writes the rates of the state y at t to k.
func (m *model) explicit(t float64, y, k []float64) error {
	if err := m.surroundings(t); err != nil {
		return err
	}
	m.in.fill(m, m.t, y[atWater])
	g := &m.pack.Growth
	strain := 1.0
	for i := range g.Terms {
		strain += y[atCreep+i]
	}
	m.in.base, m.in.slope = m.pack.Volume*strain, m.pack.Volume*g.Elastic
	var err error
	if m.p, err = m.in.solve([gases]float64{y[0], y[1], y[2]}, m.p, &m.bal); err != nil {
		return fault(t, err)
	}
	clear(k[:m.small])
	f := m.leave(m.p, &m.bal, y[atAcid], y[atLiner])
	m.charge(k, &f)
	for i := range m.slabs {
		s := &m.slabs[i]
		s.rates(y, k, m.driving(s.gas), m.outside[s.gas])
		k[s.gas] -= s.area * s.in
		k[m.acc+passed+int(s.gas)] += s.area * s.out
		k[m.acc+entered+int(s.gas)] += s.area * s.in
		k[m.acc+boundWall] += s.area * s.bound
	}
	k[atWater] = -m.dry()
	x := g.Elastic * math.Max(m.bal.total-m.in.ambient, 0)
	for i, q := range g.Terms {
		k[atCreep+i] = m.kelvin[i] * (q.Ratio*x - y[atCreep+i])
	}
	return nil
}

// driving returns the pressure that drives a gas into the wall.
func (m *model) driving(g Gas) float64 {
	if g == CO2 {
		return m.bal.fugacity
	}
	return m.p[g]
}

// charge books the flows that do not pass the wall.
func (m *model) charge(k []float64, f *flows) {
	for g := CO2; g < gases; g++ {
		k[g] -= f.cap[g]
		k[m.acc+closed+int(g)] += f.cap[g]
	}
	k[Oxygen] -= f.drink
	k[m.acc+consumed] += f.drink
	k[m.acc+boundCap] += f.liner
	if m.pack.Uptake.Acid > 0 {
		k[atAcid] -= m.pack.Uptake.Stoichiometry * f.drink
	}
	if c := m.pack.Cap.Scavenger.Capacity; c > 0 {
		k[atLiner] -= f.liner / c
	}
}
