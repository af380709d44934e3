// The rest of a loop over numbers of which the last four may be taken twice: AX counts, the last four begin at DX.
#define AGAIN(loop, done) \
	CMPQ AX, DX               \
	JEQ done                  \
	ADDQ $4, AX               \
	CMPQ AX, DX               \
	JLE loop                  \
	MOVQ DX, AX               \
	JMP loop

// The sum of the four in y to the first of x, the same register: those side by side first. t is worked in.
#define TOGETHER(y, x, t) \
	VEXTRACTF128 $1, y, t     \
	VHADDPD x, x, x           \
	VHADDPD t, t, t           \
	VADDSD t, x, x
