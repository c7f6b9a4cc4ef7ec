// The shape of a spec: statements, one a line, with blocks. What the words of a fact mean is said by the tables in
// Wain.Core, Language: a keyword is one only at the beginning of a fact and only in its block. See language.md.
parser grammar WainParser;

options { tokenVocab = WainLexer; }

spec
    : statement* EOF
    ;

statement
    : (letStatement | setStatement | functionStatement | groupStatement | ifStatement | forStatement | requireStatement | fact) NEWLINE
    ;

// let body_width = 70 in
letStatement
    : LET anyWord EQUALS value
    ;

// set sheet_price = 42 USD
setStatement
    : SET anyWord EQUALS value
    ;

// function rise(run, slope) = run * tan(slope)
functionStatement
    : FUNCTION CALL parameters RPAREN EQUALS value
    ;

// group locker(width, depth) { ... }
groupStatement
    : GROUP CALL parameters RPAREN block
    ;

parameters
    : (anyWord (COMMA anyWord)*)?
    ;

ifStatement
    : IF condition block (ELSE IF condition block)* (ELSE block)?
    ;

// for side in left, right { ... }
forStatement
    : FOR anyWord keyword = WORD forKey (COMMA forKey)* block
    ;

// A key, or a key and what it stands for: upper = 30 in
forKey
    : anyWord (EQUALS sum)?
    ;

// require total.weight <= 900 lb, "say why"
requireStatement
    : REQUIRE condition (COMMA STRING)?
    ;

// panel floor of deck { ... }
fact
    : WORD term* (COMMA term+)* block?
    ;

term
    : sum
    | keyword = (LET | SET | FUNCTION | GROUP | IF | THEN | ELSE | FOR | REQUIRE | AND | OR | NOT)
    ;

block
    : LBRACE statement* RBRACE
    ;

value
    : choice
    | condition
    ;

// if wide then 3 in else 2 in
choice
    : IF condition THEN sum (ELSE IF condition THEN sum)* ELSE sum
    ;

condition
    : conjunction (OR conjunction)*
    ;

conjunction
    : negation (AND negation)*
    ;

negation
    : NOT? comparison
    ;

comparison
    : sum (operator = (SAME | DIFFERENT | LESS | LESS_OR_SAME | GREATER | GREATER_OR_SAME) sum)?
    ;

sum
    : product (operators += (PLUS | MINUS) product)*
    ;

product
    : signed (operators += (TIMES | STROKE) signed)*
    ;

signed
    : SIGN? power
    ;

power
    : primary (POWER primary)?
    ;

primary
    : MEASURE                                   # measureValue
    | NUMBER                                    # numberValue
    | STRING                                    # textValue
    | DATE                                      # dateValue
    | CALL (argument (COMMA argument)*)? RPAREN # callValue
    | LPAREN value (COMMA value)* RPAREN        # bracketValue
    | path                                      # pathValue
    ;

argument
    : (WORD EQUALS)? value
    ;

path
    : WORD index* (DOT pathPart)*
    ;

pathPart
    : anyWord index*
    ;

// locker[side] names locker_left when side is left
index
    : LBRACKET anyWord RBRACKET
    ;

anyWord
    : WORD
    | LET
    | SET
    | FUNCTION
    | GROUP
    | IF
    | THEN
    | ELSE
    | FOR
    | REQUIRE
    | AND
    | OR
    | NOT
    ;
