// Package conductor holds what tables say of conductors in a raceway: their
// resistance, reactance and constants by size. Fault currents and surges go by it.
package conductor
