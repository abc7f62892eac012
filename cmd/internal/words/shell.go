package words

import "strings"

// ShellWord is a file's name as a command line takes it.
func ShellWord(name string) string {
	if strings.ContainsAny(name, " '\"\\$&()*;<>?[]`|~#!") {
		return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
	}
	return name
}
