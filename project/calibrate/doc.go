// Package calibrate sets the free numbers of a model by what a laboratory has
// measured, and says what further measurements would settle.
//
// [FitPulls] fits the shelf life of a carbonated pack to carbonation pulls.
package calibrate
