// Package circuit describes an electrical network as data: what a surge meets
// in a building, ready to be solved or to be written as a deck for a circuit
// simulator. It knows nothing of drawings.
//
// Everything is in SI units. A voltage is that of a node against Earth, which
// stands for the local earth bar wherever a bus is: a line carries differences
// to it from bus to bus, with the earth conductor as the return. The current
// of an element flows from its first node through it to its second.
//
// Validate tells what is wrong with a network; the solvers take only networks
// for which it returns nothing.
package circuit
