// Package transient solves a circuit.Network in time: what a surge does at
// every bus, in every mode and in every protector.
//
// A line of delay τ hides its two ends from each other for τ. With a step not
// longer than any delay, each cluster of the network is a small problem of its
// own, and a step costs time in proportion to the size of the network. A step
// longer than a delay is refused.
//
// Within a cluster every element is a conductance with a current beside it
// (its companion): by the trapezoidal rule over a step h
//
//	capacitor  i = G v - J   G = 2C/h             next J = 2 G v - J
//	inductor   i = Γ v + H   Γ = (2L/h + R)^-1    next H = Γ (4L/h) i - H
//	line end   i = Y v - η   from v = R/2 i + u,  i = u/Z - w, where w is the
//	                         wave u/Z + i that left the other end τ ago, so
//	                         Y = (Z + R/2)^-1 and η = Y Z w; Z is a matrix
//
// with currents from the first node of an element through it to the second.
// Two half steps of the backward Euler rule have the same G and Γ; they stand
// in for a step where something jumps (at the start, when a gap fires or opens,
// and when a diode blocks), so that the trapezoidal rule does not ring (critical damping
// adjustment: Marti and Lin, IEEE Trans. Power Systems 4(2), 1989, from
// memory). Lines are those of Dommel, IEEE Trans. PAS-88(4), 1969 (from
// memory).
//
// The linear nodes of a cluster are eliminated once; what is left is solved for
// the nodes that varistors, gaps and diodes touch. Their curves are straight pieces, so
// within the same pieces a step is one multiplication by factors that are
// kept; where a piece is left, Newton's method goes on with the pieces of the
// new voltages. Since all curves rise, the solution is unique and a search
// along Newton's direction always finds it.
//
// A cluster takes several steps in one go (a block), as many as its lines hide it for:
// first what lines bring in all of them, then the voltages step by step, then what
// lines take away and what the peaks are. All that is linear in a step is one
// sum (fused), and once the limiters have rested for some steps they are in it, too.
// These sums over fours of numbers are most of the work (kernel.go). On processors
// with AVX2 they are in assembly, since the compiler takes one number at a time: that
// is worth a factor of two on a building, and of five on a bus with lines only.
//
// A Solver writes nothing outside itself; it allocates nothing while it steps.
// The same network and options give the same result, bit by bit.
package transient
