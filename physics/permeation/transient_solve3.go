package permeation

import "math"

// solve3 solves a 3 by 3 system by elimination with row pivots.
func solve3(a [3][3]float64, r [3]float64) ([3]float64, bool) {
	for k := range 3 {
		q := k
		for i := k + 1; i < 3; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[q][k]) {
				q = i
			}
		}
		if a[q][k] == 0 || math.IsNaN(a[q][k]) {
			return r, false
		}
		a[k], a[q] = a[q], a[k]
		r[k], r[q] = r[q], r[k]
		for i := k + 1; i < 3; i++ {
			f := a[i][k] / a[k][k]
			for j := k; j < 3; j++ {
				a[i][j] -= f * a[k][j]
			}
			r[i] -= f * r[k]
		}
	}
	for k := 2; k >= 0; k-- {
		for j := k + 1; j < 3; j++ {
			r[k] -= a[k][j] * r[j]
		}
		r[k] /= a[k][k]
	}
	return r, true
}
