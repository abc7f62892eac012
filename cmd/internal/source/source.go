// Package source names the source that something is built from, for what builds it.
package source

import (
	"fmt"
	"os/exec"
)

// CheckedOut is the program's name and the commit that is checked out, with + where files
// differ from it. A folder that git does not know is an error.
func CheckedOut() (string, error) {
	const short = 12 // letters of a commit that tell it from all others here
	commit, err := exec.Command("git", "rev-parse", "HEAD").Output()
	if err == nil && len(commit) < short {
		err = fmt.Errorf("a commit of %d letters", len(commit))
	}
	if err != nil {
		return "", fmt.Errorf("the source is not a checkout of git: %w", err)
	}
	name := "evendrop " + string(commit[:short])
	if changed, err := exec.Command("git", "status", "-s").Output(); err != nil || len(changed) > 0 {
		name += "+"
	}
	return name, nil
}
