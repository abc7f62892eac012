package source

// Cure is what somebody at the program can do about a problem. How that is typed, the
// program says: nothing here knows its commands.
type Cure string

// The cures.
const (
	Overwrite      Cure = "overwrite the file"
	Trust          Cure = "trust the job's paths"
	NewJob         Cure = "make a new job"
	NewKnownGood   Cure = "make a known-good file"
	AsReadings     Cure = "find by the file as readings"
	AsJob          Cure = "find by the file as a job"
	AsKnownGood    Cure = "compare a job with the file"
	KeepJob        Cure = "make a known-good file of the job"
	TypeAtTheBench Cure = "type readings at the bench"
)

// Curable is a problem that has a cure.
type Curable struct {
	Problem string
	Cure    Cure
}

// Error is the problem alone.
func (c Curable) Error() string { return c.Problem }
