// Package interview is the questions about a job that is to be made, asked one at a time
// in the mechanic's words. It knows no console and no page: whoever shows it puts the
// question, hands it the line that was typed, and shows the reply.
package interview

import (
	"errors"
	"fmt"
	"strings"

	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
)

// Question is what is asked next.
type Question struct {
	Topic   string   // its name, the same in every interview
	Text    string   // one short line
	Usual   string   // what nothing typed stands for, in words
	Choices []string // that may be named by their numbers from 1; none of most questions
}

// Reply is what is said to a line.
type Reply struct {
	Says    string // a paragraph to be broken into lines; "" of nothing
	Picture string // in characters, no wider than 58, as it stands; "" of none
	Taken   bool   // the line was an answer, and the next question is another
	Left    bool   // who was asked wants to leave, and nothing is to be made
}

// topic is a question of the table.
type topic struct {
	name    string
	asks    func(f Facts) (text, usual string)
	when    func(f Facts) bool // nil: always
	choices []string
	take    func(f Facts, answer string) (Facts, string, error) // "" is nothing typed
	help    help
}

// help is what ? says.
type help struct{ says, picture string }

// Interview is one round of questions.
type Interview struct {
	facts  Facts
	topics []topic
	known  func(topic string) bool // what is not to be asked
	at     int                     // the question that is asked; len(topics): none
	past   []step
}

// step is a question that was answered, and what was known before.
type step struct {
	at    int
	facts Facts
}

// New asks what is left open of a new job: everything but the topics that are known. A
// topic is called as the flag of evendrop begin that states it.
func New(f Facts, known func(topic string) bool) *Interview { return begin(f, topics, known) }

func begin(f Facts, topics []topic, known func(topic string) bool) *Interview {
	i := &Interview{facts: f, topics: topics, known: known, at: -1}
	i.goOn()
	return i
}

// goOn goes to the next question that has to be asked.
func (i *Interview) goOn() {
	for i.at++; i.at < len(i.topics); i.at++ {
		t := i.topics[i.at]
		if !i.known(t.name) && (t.when == nil || t.when(i.facts)) {
			return
		}
	}
}

// Facts are what is known so far.
func (i *Interview) Facts() Facts { return i.facts }

// Answered is how many questions were answered, and not taken back.
func (i *Interview) Answered() int { return len(i.past) }

// Question is the one to put; false when nothing is left to ask.
func (i *Interview) Question() (Question, bool) {
	if i.at >= len(i.topics) {
		return Question{}, false
	}
	t := i.topics[i.at]
	text, usual := t.asks(i.facts)
	return Question{t.name, text, usual, t.choices}, true
}

// Answer takes a line: an answer, nothing for the usual one, ? for what is meant, back
// for the question before, or quit.
func (i *Interview) Answer(line string) Reply {
	answer := strings.Join(strings.Fields(legible.Plain(line)), " ")
	t := i.topics[i.at]
	switch strings.ToLower(strings.Trim(answer, ".!")) {
	case "?", "help", "what":
		return Reply{Says: t.help.says, Picture: t.help.picture}
	case "back", "<":
		return i.back()
	case "quit", "exit", "q":
		return Reply{Left: true}
	case "unknown", "not known", "don't know", "dont know", "no idea", "skip", "-":
		answer = ""
	}
	f, says, err := t.take(i.facts, answer)
	if err != nil {
		return Reply{Says: words.Capital(legible.Message(err.Error())) + "."}
	}
	i.past = append(i.past, step{i.at, i.facts})
	i.facts = f
	i.goOn()
	return Reply{Says: says, Taken: true}
}

// back is the question before, with what was known then.
func (i *Interview) back() Reply {
	if len(i.past) == 0 {
		return Reply{Says: "This is the first question."}
	}
	last := i.past[len(i.past)-1]
	i.past = i.past[:len(i.past)-1]
	i.at, i.facts = last.at, last.facts
	return Reply{}
}

// fixed asks the same whatever is known.
func fixed(text, usual string) func(Facts) (string, string) {
	return func(Facts) (string, string) { return text, usual }
}

// Words that answer yes or no, and what a number did.
var (
	yes = map[string]bool{"y": true, "yes": true, "yep": true, "yeah": true, "n": false, "no": false, "nope": false}
	did = map[string]bool{
		"rose": true, "rise": true, "rises": true, "risen": true, "r": true, "grew": true, "grow": true, "grows": true, "higher": true, "more": true,
		"fell": false, "fall": false, "falls": false, "fallen": false, "f": false, "shrank": false, "shrinks": false, "lower": false, "less": false,
	}
)

var errYes = errors.New("type y or n")

// yesOrNo reads y or n; usual of nothing typed.
func yesOrNo(answer string, usual bool) (bool, error) {
	if answer == "" {
		return usual, nil
	}
	is, ok := yes[word(answer)]
	if !ok {
		return false, errYes
	}
	return is, nil
}

// rose reads whether a number rose; y and n answer it too.
func rose(answer string) (bool, error) {
	w := strings.TrimPrefix(word(answer), "it ")
	if is, ok := yes[w]; ok {
		return is, nil
	}
	if is, ok := did[w]; ok {
		return is, nil
	}
	return false, fmt.Errorf("%s is not an answer here: type y or rose, or n or fell", quoted(answer))
}

// word is an answer of a word, as the tables have it.
func word(answer string) string { return strings.Trim(strings.ToLower(answer), ".!") }

// quoted is what was typed, in a sentence; the first of it where it is long.
func quoted(answer string) string {
	const most = 30
	return `"` + legible.Cut(answer, most) + `"`
}
