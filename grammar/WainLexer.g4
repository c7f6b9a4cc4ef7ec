// Tokens of the spec language. See language.md, "Words, numbers and lines".
// Kept small on purpose: a measure such as 5 1/2 in is joined from NUMBER and unit words right after lexing
// (Wain.Core, Parsing/TokenReader.cs), from the same table of units that gives their factors.
lexer grammar WainLexer;

LET : 'let' ;
SET : 'set' ;
FUNCTION : 'function' ;
GROUP : 'group' ;
IF : 'if' ;
THEN : 'then' ;
ELSE : 'else' ;
FOR : 'for' ;
REQUIRE : 'require' ;
AND : 'and' ;
OR : 'or' ;
NOT : 'not' ;

// A name right before a bracket, without a blank, is a call: tan(x). With a blank it is a word and a place: at (x, y).
CALL : WORD_CHARS '(' ;
WORD : WORD_CHARS ;

DATE : DIGIT DIGIT DIGIT DIGIT '-' DIGIT DIGIT '-' DIGIT DIGIT ;

// 12, 0.5, 1.95e6, 5/16 and 5 1/2 are one number each: a fraction has no blank round its stroke.
NUMBER
    : DIGIT+ ('.' DIGIT+)? ([eE] [+-]? DIGIT+)?
    | DIGIT+ '/' DIGIT+
    | DIGIT+ ('.' DIGIT+)? [ \t]+ DIGIT+ '/' DIGIT+
    | (DIGIT+ ' '?)? VULGAR_FRACTION
    ;

// Never right: each is told with the spelling to use.
GROUPED_NUMBER : DIGIT+ (',' DIGIT+)+ ('.' DIGIT+)? ;
BARE_POINT_NUMBER : '.' DIGIT+ ;
DASHED_MEASURE : DIGIT+ '-' DIGIT+ '/' DIGIT+ ;
MARKED_MEASURE
    : DIGIT+ '\'' ('-'? ' '? DIGIT+ (' ' DIGIT+ '/' DIGIT+)? '"'?)?
    | DIGIT+ (' ' DIGIT+)? '/' DIGIT+ '"'
    | DIGIT+ '"'
    ;
DIGIT_WORD : DIGIT+ ('.' DIGIT+)? (LETTER | '_') (LETTER | DIGIT | '_')* ;

STRING : '"' ('\\' ~[\r\n] | ~["\\\r\n])* '"' ;
OPEN_STRING : '"' ('\\' ~[\r\n] | ~["\\\r\n])* ;

// A word processor makes one long dash of the two.
COMMENT : ('--' | '\u2014') ~[\r\n]* -> channel(HIDDEN) ;
NEWLINE : '\r'? '\n' | '\r' ;
BLANKS : [ \t]+ -> skip ;

LBRACE : '{' ;
RBRACE : '}' ;
LPAREN : '(' ;
RPAREN : ')' ;
LBRACKET : '[' ;
RBRACKET : ']' ;
COMMA : ',' ;
DOT : '.' ;
EQUALS : '=' ;
SAME : '==' ;
DIFFERENT : '!=' ;
LESS_OR_SAME : '<=' ;
GREATER_OR_SAME : '>=' ;
LESS : '<' ;
GREATER : '>' ;
PLUS : '+' ;
MINUS : '-' ;
TIMES : '*' ;
STROKE : '/' ;
POWER : '^' ;
PERCENT : '%' ;
DEGREE : '\u00B0' ;

// The token reader makes these two; no text lexes as them.
MEASURE : '\u0000measure' ;
SIGN : '\u0000sign' ;

// #8 is a screw's gauge: the sign is dropped before a number.
HASH : '#' ;

OTHER : . ;

fragment WORD_CHARS : LETTER (LETTER | DIGIT | '_')* ;
fragment LETTER : [A-Za-z\u00C0-\u024F] ;
fragment DIGIT : [0-9] ;
// One half, quarters and eighths as a word processor writes them.
fragment VULGAR_FRACTION : [\u00BC-\u00BE\u215B-\u215E] ;
