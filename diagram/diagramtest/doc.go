// Package diagramtest makes documents for tests and benchmarks: random ones
// that hold whatever a document may hold, and large plain buildings. Equal
// seeds give equal documents. Only tests import it.
package diagramtest
