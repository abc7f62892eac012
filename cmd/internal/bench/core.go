package bench

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/session"
	"evendrop/cmd/internal/words"
)

// Core answers requests. Its zero value has no job open.
type Core struct {
	Version string // of the program, as its pages say it

	revision int
	open     *sitting // nil: none
}

// sitting is a job that is open.
type sitting struct {
	*session.Session
	paper  *paper
	points points
}

// mostAsked is the largest request, in bytes: a job's files in base64, and room.
const mostAsked = 100 << 20

// Do answers a request with a response, both in JSON. It never fails: what is wrong with a
// request is in its response, and so is a panic.
func (c *Core) Do(request []byte) (response []byte) {
	defer func() {
		if broke := recover(); broke != nil {
			c.open = nil
			response = encoded(Response{Panic: legible.Message(fmt.Sprint(broke)), Revision: 0})
		}
	}()
	r, err := c.answer(request)
	if err != nil {
		r = Response{Error: legible.Message(words.Problem(err)), Stale: errors.Is(err, errStale)}
	}
	if c.open != nil {
		r.Revision = c.revision
	}
	return encoded(r)
}

// encoded is a response in JSON, text as it is.
func encoded(r Response) []byte {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(r); err != nil {
		out.Reset()
		fmt.Fprintf(&out, `{"panic": "an answer has no form in JSON: %T"}`, err)
	}
	return out.Bytes()
}

// errStale is a request about another job than the one that is open.
var errStale = errors.New("this is not the job as it was kept last: it is opened again")

// answer reads a request and does what it asks for.
func (c *Core) answer(request []byte) (Response, error) {
	if len(request) > mostAsked {
		return Response{}, errors.New("a request of more than 100 MB: a job's files are at most 64 MB together")
	}
	var r Request
	if err := json.Unmarshal(request, &r); err != nil {
		return Response{}, fmt.Errorf("a request that is no JSON as it is expected: %w", err)
	}
	if do, is := ofNoJob[r.Action]; is {
		return do(c, r)
	}
	do, is := ofJob[r.Action]
	switch {
	case !is:
		return Response{}, fmt.Errorf("no action is called %q", legible.Cut(string(r.Action), longestName))
	case c.open == nil, r.Revision != 0 && r.Revision != c.revision:
		return Response{}, errStale
	}
	return do(c, r)
}

// The actions, by whether a job has to be open.
var (
	ofNoJob = map[Action]func(*Core, Request) (Response, error){
		Hello: (*Core).hello, Begin: (*Core).begin, Open: (*Core).openJob,
	}
	ofJob = map[Action]func(*Core, Request) (Response, error){
		Type: (*Core).typeLine, StateOf: (*Core).stateOf, Expect: (*Core).expect, MarksOf: (*Core).marksOf, HistoryOf: (*Core).historyOf,
		Picture: (*Core).picture, Sheet: (*Core).sheet, Details: (*Core).details, Attach: (*Core).attach, Export: (*Core).export,
	}
)
