package file

import "fmt"

// step leads the members of a file from one version of the format to the
// next. It alters the object in place, and is never edited after the version
// that it leads to has been released.
type step func(top map[string]any) error

// steps returns the step from version 1 to 2, then that from 2 to 3, and so
// on without holes up to Current. Version 1 is current, so there are none.
// A new version adds its step in a file named after the version, and a frozen
// sample under testdata/files.
func steps() []step { return nil }

// migrate leads the members from the version to the one after the last step.
// The version must be from 1 to that.
func migrate(top map[string]any, version int, steps []step) error {
	for ; version <= len(steps); version++ {
		if err := steps[version-1](top); err != nil {
			return fmt.Errorf("upgrade from version %d to %d: %w", version, version+1, err)
		}
	}
	return nil
}
