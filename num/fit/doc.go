// Package fit finds the parameters of a model by least squares, between
// bounds, with their covariance.
package fit
