package stat

import (
	"fmt"
	"math"
	"slices"
)

// CohenKappa returns Cohen's kappa of two raters on the same items and its
// large-sample standard error,
//
//	kappa = (po - pe)/(1 - pe)
//
// with po the observed and pe the chance agreement. Raters who both use one
// and the same category for all items are refused: kappa has no value.
// Source: Cohen1960.
func CohenKappa(a, b []string) (kappa, se float64, err error) {
	if len(a) != len(b) || len(a) < 2 {
		return 0, 0, fmt.Errorf("stat: Cohen's kappa: %d and %d ratings, want equal numbers of at least 2", len(a), len(b))
	}
	na, nb := map[string]float64{}, map[string]float64{}
	n := float64(len(a))
	var po float64
	for i := range a {
		na[a[i]] += 1 / n
		nb[b[i]] += 1 / n
		if a[i] == b[i] {
			po += 1 / n
		}
	}
	var keys []string
	for k := range na {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	var pe float64
	for _, k := range keys {
		pe += na[k] * nb[k]
	}
	if pe > 1-1e-12 {
		return 0, 0, fmt.Errorf("stat: Cohen's kappa: every rating is %q", a[0])
	}
	return (po - pe) / (1 - pe), math.Sqrt(math.Max(0, po*(1-po))/n) / (1 - pe), nil
}

// FleissKappa returns Fleiss's kappa of counts[item][category], the same
// number m >= 2 of ratings an item. Source: Fleiss1971.
func FleissKappa(counts [][]int) (float64, error) {
	if len(counts) < 2 || len(counts[0]) < 2 {
		return 0, fmt.Errorf("stat: Fleiss's kappa: want at least 2 items and 2 categories")
	}
	m := 0
	for _, c := range counts[0] {
		m += c
	}
	if m < 2 {
		return 0, fmt.Errorf("stat: Fleiss's kappa: %d ratings an item, want at least 2", m)
	}
	share := make([]float64, len(counts[0]))
	var po float64
	n := float64(len(counts))
	for i, row := range counts {
		if len(row) != len(share) {
			return 0, fmt.Errorf("stat: Fleiss's kappa: item %d has %d categories, want %d", i+1, len(row), len(share))
		}
		sum, pairs := 0, 0
		for j, c := range row {
			if c < 0 {
				return 0, fmt.Errorf("stat: Fleiss's kappa: item %d has a count of %d", i+1, c)
			}
			sum += c
			pairs += c * (c - 1)
			share[j] += float64(c) / (n * float64(m))
		}
		if sum != m {
			return 0, fmt.Errorf("stat: Fleiss's kappa: item %d has %d ratings, want %d", i+1, sum, m)
		}
		po += float64(pairs) / (float64(m*(m-1)) * n)
	}
	var pe float64
	for _, s := range share {
		pe += s * s
	}
	if pe > 1-1e-12 {
		return 0, fmt.Errorf("stat: Fleiss's kappa: every rating is in one category")
	}
	return (po - pe) / (1 - pe), nil
}

// Agreement is a share of items on which ratings agree, with the two-sided
// limits of Clopper and Pearson.
type Agreement struct {
	Name   string  `json:"name"`
	Agreed int     `json:"agreed"`
	N      int     `json:"n"`
	Share  float64 `json:"share"`
	Lo     float64 `json:"lo"`
	Hi     float64 `json:"hi"`
}

// AttributeStudy is the agreement of appraisers who sort the same items in
// repeated trials.
type AttributeStudy struct {
	Within   []Agreement // each appraiser with himself
	Standard []Agreement // each appraiser, all trials, with the standard; nil without one
	Between  Agreement   // all appraisers, all trials, with each other
	All      Agreement   // all appraisers, all trials, with the standard; zero without one
	Kappa    float64     // Fleiss, over all ratings
	HasKappa bool        // false where every rating is the same
}

// Attributes analyses ratings[appraiser][trial][item] against a standard,
// which may be nil. confidence is two-sided.
func Attributes(ratings [][][]string, standard []string, confidence float64) (AttributeStudy, error) {
	if err := inside("attribute study", "confidence", confidence); err != nil {
		return AttributeStudy{}, err
	}
	if len(ratings) < 1 || len(ratings[0]) < 1 || len(ratings[0][0]) < 1 {
		return AttributeStudy{}, fmt.Errorf("stat: attribute study: no ratings")
	}
	items := len(ratings[0][0])
	if standard != nil && len(standard) != items {
		return AttributeStudy{}, fmt.Errorf("stat: attribute study: %d items, standard of %d", items, len(standard))
	}
	agreement := func(name string, ok []bool) (Agreement, error) {
		n := 0
		for _, b := range ok {
			if b {
				n++
			}
		}
		f, err := FailingFraction(items-n, items, (1+confidence)/2)
		return Agreement{Name: name, Agreed: n, N: items, Share: float64(n) / float64(items), Lo: 1 - f.Upper, Hi: 1 - f.Lower}, err
	}
	allOne, allStd := yes(items), yes(items)
	counts := make([]map[string]int, items)
	for j := range counts {
		counts[j] = map[string]int{}
	}
	var out AttributeStudy
	for i, trials := range ratings {
		if len(trials) != len(ratings[0]) {
			return AttributeStudy{}, fmt.Errorf("stat: attribute study: appraiser %d has %d trials, want %d", i+1, len(trials), len(ratings[0]))
		}
		within, std := yes(items), yes(items)
		for k, trial := range trials {
			if len(trial) != items {
				return AttributeStudy{}, fmt.Errorf("stat: attribute study: appraiser %d, trial %d has %d items, want %d", i+1, k+1, len(trial), items)
			}
			for j, r := range trial {
				counts[j][r]++
				within[j] = within[j] && r == trials[0][j]
				allOne[j] = allOne[j] && r == ratings[0][0][j]
				if standard != nil {
					std[j] = std[j] && r == standard[j]
					allStd[j] = allStd[j] && r == standard[j]
				}
			}
		}
		name := fmt.Sprintf("appraiser %d", i+1)
		w, err := agreement(name, within)
		if err != nil {
			return AttributeStudy{}, err
		}
		out.Within = append(out.Within, w)
		if standard != nil {
			s, err := agreement(name, std)
			if err != nil {
				return AttributeStudy{}, err
			}
			out.Standard = append(out.Standard, s)
		}
	}
	var err error
	if out.Between, err = agreement("all appraisers", allOne); err != nil {
		return AttributeStudy{}, err
	}
	if standard != nil {
		if out.All, err = agreement("all appraisers with the standard", allStd); err != nil {
			return AttributeStudy{}, err
		}
	}
	if k, err := FleissKappa(table(counts)); err == nil {
		out.Kappa, out.HasKappa = k, true
	}
	return out, nil
}

func yes(n int) []bool {
	b := make([]bool, n)
	for i := range b {
		b[i] = true
	}
	return b
}

// table turns counts by name into rows over all names in order.
func table(counts []map[string]int) [][]int {
	var names []string
	for _, c := range counts {
		for k := range c {
			names = append(names, k)
		}
	}
	slices.Sort(names)
	names = slices.Compact(names)
	out := make([][]int, len(counts))
	for i, c := range counts {
		out[i] = make([]int, len(names))
		for j, k := range names {
			out[i][j] = c[k]
		}
	}
	return out
}
