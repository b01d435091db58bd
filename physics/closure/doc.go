// Package closure holds the closures of PET bottles as data cards: masses and
// materials, the gas that passes through them, friction and torque, the seal
// and the tamper band.
//
// A closure is described by what a calculation needs, not by its drawing: the
// conductance of the whole closure for each gas (permeation through shell and
// liner, no leak), the friction of thread and land, how far it must rise
// before the bridges of the band break and before the seal opens, and how hard
// its thread holds. The last three are known poorly; cards mark them with low
// confidence and answers that use them say so.
//
// Cards carry generic names. [Closure.Fits] tells whether a closure belongs on
// a thread.
package closure
