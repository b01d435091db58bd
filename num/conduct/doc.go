// Package conduct solves transient heat conduction across a wall by finite
// volumes: flat, cylindrical, spherical or anything between, with heat given
// to the cells, convection, radiation or a fixed temperature at the faces, and
// any enthalpy law.
//
//	NewWall   the mesh: faces, areas and volumes of the cells
//	Stuff     density, conductivity, enthalpy over temperature
//	Solver    steps temperatures in time, second order, without allocation
//
// The unknown that is balanced is the enthalpy, so what flows in is what is
// stored, to the accuracy of the Newton iteration, whatever the law.
package conduct
