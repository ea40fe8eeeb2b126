package diagramtest

// Must returns what a call gives that cannot fail where it stands, and panics where
// it does.
func Must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}
