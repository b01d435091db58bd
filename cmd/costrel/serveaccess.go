package main

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"os"
	"strings"
	"unicode/utf8"
)

// tokenVariable is the environment variable that may hold the token. It is no
// flag: a command line is seen by every user of a machine.
const tokenVariable = "COSTREL_TOKEN"

// minToken is the shortest token [characters]: 24 of the digits 0-9 and a-f
// drawn at random are 96 bits.
const minToken = 24

// access returns the token that requests must bring. On the loopback address
// it may be empty; elsewhere it is demanded.
func (c *serveCmd) access() (string, error) {
	token, from, err := c.token()
	switch {
	case err != nil:
		return "", err
	case from == "" && !loopback(c.Address):
		return "", fmt.Errorf("listening on %q lets other machines in and needs a token of at least %d characters: "+
			"put one on the first line of a file that only you can read and name it with --token-file, or in the variable %s. "+
			"One way to make it: head -c 24 /dev/urandom | base64 > token", c.Address, minToken, tokenVariable)
	case from == "":
		return "", nil
	case utf8.RuneCountInString(token) < minToken:
		return "", fmt.Errorf("the token in %s has %d characters; it needs at least %d", from, utf8.RuneCountInString(token), minToken)
	case strings.ContainsFunc(token, func(r rune) bool { return r <= ' ' || r > '~' }):
		return "", fmt.Errorf("the token in %s holds a space or a character that is not plain ASCII; a header cannot carry it", from)
	}
	return token, nil
}

// token reads the token; from says where it stood and is empty when there is
// none.
func (c *serveCmd) token() (token, from string, err error) {
	inVariable, set := os.LookupEnv(tokenVariable)
	if c.TokenFile == "" {
		if !set {
			return "", "", nil
		}
		return strings.TrimSpace(inVariable), "the variable " + tokenVariable, nil
	}
	if set {
		return "", "", fmt.Errorf("there are two tokens, in %s and in the variable %s: leave one out", c.TokenFile, tokenVariable)
	}
	b, err := os.ReadFile(c.TokenFile)
	if err != nil {
		return "", "", fmt.Errorf("token: %w", err)
	}
	line, _, _ := strings.Cut(string(b), "\n")
	return strings.TrimSpace(line), c.TokenFile, nil
}

// encryption returns the settings of HTTPS, or nil for HTTP.
func (c *serveCmd) encryption() (*tls.Config, error) {
	switch {
	case c.TLSCert == "" && c.TLSKey == "":
		return nil, nil
	case c.TLSCert == "" || c.TLSKey == "":
		return nil, errors.New("HTTPS needs both --tls-cert and --tls-key")
	}
	pair, err := tls.LoadX509KeyPair(c.TLSCert, c.TLSKey)
	if err != nil {
		return nil, fmt.Errorf("certificate and key: %w", err)
	}
	return &tls.Config{Certificates: []tls.Certificate{pair}, MinVersion: tls.VersionTLS12}, nil
}

// loopback reports whether an address to listen on is for this machine only.
func loopback(address string) bool {
	if address == "localhost" {
		return true
	}
	ip := net.ParseIP(address)
	return ip != nil && ip.IsLoopback()
}
