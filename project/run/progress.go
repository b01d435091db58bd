package run

// shares of a full run by stage, in parts of its time without a cache; stages
// that are not named take little. Measured by TestShares on the demo bottle;
// what is behind the last stage are the bands.
var shares = map[string]float64{
	"reheat": 0.5, "blow": 20, "strength": 20, "shelf": 30, bandsOfBlow: 22,
}

// bandsOfBlow is what a watcher is told of the blows that make the bands.
const bandsOfBlow = "bands of the blow"

// shareBands is what is left for bands, drawing and verdicts.
const shareBands = 7

// meter turns the progress of stages into that of the whole run.
type meter struct {
	report  func(stage string, fraction float64)
	total   float64
	passed  map[string]bool
	before  float64 // of the stages that are done
	highest float64
}

func newMeter(report func(stage string, fraction float64)) *meter {
	m := &meter{report: report, total: shareBands, passed: map[string]bool{}}
	for _, s := range stages {
		m.total += share(s.name)
	}
	m.total += share(bandsOfBlow)
	return m
}

func share(stage string) float64 {
	if w, ok := shares[stage]; ok {
		return w
	}
	return 0.2
}

// at takes the fraction of a stage, 1 when it is done.
func (m *meter) at(stage string, fraction float64) {
	if m.report == nil || m.passed[stage] {
		return
	}
	done := m.before + share(stage)*min(max(fraction, 0), 1)
	if fraction >= 1 {
		m.passed[stage] = true
		m.before += share(stage)
	}
	m.tell(stage, done/m.total)
}

func (m *meter) tell(stage string, fraction float64) {
	m.highest = max(m.highest, min(fraction, 1))
	m.report(stage, m.highest)
}

func (m *meter) end() {
	if m.report != nil {
		m.tell(stages[len(stages)-1].name, 1)
	}
}
