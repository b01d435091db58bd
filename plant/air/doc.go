// Package air counts the compressed air of a stretch blow moulder: the normal
// volume a bottle takes, the share that can be passed on instead of blown
// off, the work of compression, and the energy a charged bottle stores.
//
// Three ways of counting a normal volume are in use and differ by some
// percent; [Convention] names them, and no function picks one silently.
package air
