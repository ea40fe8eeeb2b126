// Package conductor holds what tables say of conductors in a raceway: their
// resistance, reactance and constants by size, and what their metals have. Fault currents and surges go by it.
package conductor
