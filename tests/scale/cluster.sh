#!/bin/sh
# The job files of docs/scale/ run for real: munge, slurmctld and slurmd on this one machine, an array of six shards of
# which one is killed half-way and requeued and another is sent again by its number, and the same by GNU parallel. What is joined must be the bytes of one run.
#   sh tests/scale/cluster.sh OHMWRIGHT      exit 0: passed, 1: failed, 77: skipped, with the reason
set -eu
program=$(realpath "$1")
root=$(CDPATH= cd -- "$(dirname -- "$0")/../.." && pwd)
skip() { echo "skipped: $1"; exit 77; }
PATH=$PATH:/usr/sbin:/sbin
for tool in munged mungekey slurmctld slurmd sbatch squeue scontrol parallel python3; do
  command -v "$tool" > /dev/null || skip "$tool is not installed (cli/packages.txt)"
done

work=$(mktemp -d)
started=
stop() {
  for one in $started; do kill "$one" 2> /dev/null || true; done
  for one in $started; do wait "$one" 2> /dev/null || true; done
  rm -rf "$work"
}
trap stop EXIT
trap 'exit 1' INT TERM
chmod 755 "$work"
mkdir -p "$work/munge" "$work/state" "$work/spool" "$work/bin" "$work/one" "$work/array" "$work/parallel"
chmod 700 "$work/munge"
user=$(id -un)
host=$(uname -n | cut -d. -f1)

# Sensors of eight lots, and a line now and then that is none.
python3 - "$work/readings.jsonl" <<'MAKE'
import sys
with open(sys.argv[1], "w") as out:
    for i in range(120_000):
        if i % 997 == 0:
            out.write('{"id": "s-%d", "readings": [{"value": "%d kohmm"}]}\n' % (i, i))
        else:
            out.write('{"id": "s-%d", "lot": "L%d", "readings": [{"value": "%.3f kohm", "connection": "lead-off", "conditions":'
                      ' {"part_temperature": "%.1f degC +- 0.3 K"}}]}\n'
                      % (i, i % 8, 10.6 + 0.001 * (i * 7919 % 700), 22.5 + 0.1 * (i % 11)))
MAKE
options="--kind thermistor --ratings ntc-10k-b3977"
"$program" batch "$work/readings.jsonl" $options --out "$work/one/verdicts.jsonl" --summary "$work/one/summary.json" > /dev/null

compare() {
  cmp "$work/one/verdicts.jsonl" "$work/$1/verdicts.jsonl" && cmp "$work/one/summary.json" "$work/$1/summary.json" ||
    { echo "FAILED: $1 differs from the single run"; exit 1; }
  echo "passed: $1, $(wc -l < "$work/$1/verdicts.jsonl") records and the summary equal to the single run"
}

# The program that the jobs find. The first time that task 3 runs, it is killed half-way and the task hangs until Slurm
# ends it. The look at the journal and the kill are a race with the program's end: where that was first, it begins anew.
cat > "$work/bin/ohmwright" <<WRAP
#!/bin/sh
if [ "\${SLURM_ARRAY_TASK_ID:-}" = 3 ] && [ ! -e "$work/was-killed" ]; then
  journal="$work/array/shard-000003.jsonl.journal"
  runs=0
  until [ -e "\$journal" ] || [ "\$runs" -eq 100 ]; do
    rm -f "$work"/array/shard-000003.*
    "$program" "\$@" & child=\$!
    while kill -0 "\$child" 2> /dev/null; do
      if grep -q '"output_bytes":[1-9]' "\$journal" 2> /dev/null; then break; fi
    done
    kill -9 "\$child" 2> /dev/null
    wait "\$child" 2> /dev/null
    runs=\$((runs + 1))
  done
  touch "$work/was-killed"
  sleep 300
  exit 1
fi
exec "$program" "\$@"
WRAP
chmod 755 "$work/bin/ohmwright"
export PATH="$work/bin:$PATH"

echo ': ' > "$work/machines"
(cd "$work" && sh "$root/docs/scale/batch-parallel.sh" machines 5 "$work/readings.jsonl" "$work/parallel" $options > /dev/null) ||
  { echo 'FAILED: the run by GNU parallel'; exit 1; }
compare parallel

port=$((20000 + $$ % 20000))
mungekey --create --keyfile "$work/munge/key"
munged --foreground --force --key-file="$work/munge/key" --socket="$work/munge/socket" --pid-file="$work/munge/pid" \
  --log-file="$work/munge/log" --seed-file="$work/munge/seed" > "$work/munge/out" 2>&1 &
started="$started $!"
cat > "$work/slurm.conf" <<CONF
ClusterName=one
SlurmctldHost=$host(127.0.0.1)
AuthType=auth/munge
AuthInfo=socket=$work/munge/socket
SlurmUser=$user
SlurmdUser=$user
SlurmctldPort=$port
SlurmdPort=$((port + 1))
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool
SlurmctldPidFile=$work/slurmctld.pid
SlurmdPidFile=$work/slurmd.pid
SlurmctldLogFile=$work/slurmctld.log
SlurmdLogFile=$work/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
MpiDefault=none
ReturnToService=2
KillWait=2
SchedulerParameters=sched_interval=2
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=$host Default=YES MaxTime=INFINITE State=UP
CONF
export SLURM_CONF="$work/slurm.conf"
sleep 1
[ -S "$work/munge/socket" ] || skip "munged does not start here: $(tail -1 "$work/munge/out" "$work/munge/log" 2> /dev/null | tr '\n' ' ')"
slurmctld -D -f "$SLURM_CONF" > "$work/ctld.out" 2>&1 &
started="$started $!"
slurmd -D -f "$SLURM_CONF" -N "$host" > "$work/slurmd.out" 2>&1 &
started="$started $!"
tries=0
until sinfo -h -o %T 2> /dev/null | grep -q idle; do
  tries=$((tries + 1))
  [ "$tries" -lt 60 ] || skip "the node does not come up: $(tail -1 "$work/slurmctld.log" 2> /dev/null) $(tail -1 "$work/slurmd.log" 2> /dev/null)"
  sleep 1
done

cd "$work"
job=$(sbatch --parsable --array=1-6 --output="$work/%A_%a.out" "$root/docs/scale/batch-shard.slurm" \
  "$work/readings.jsonl" "$work/array" 6 $options)
merge=$(sbatch --parsable --dependency="afterok:$job" --output="$work/merge.out" "$root/docs/scale/batch-merge.slurm" "$work/array" 6)
tries=0
until [ -e "$work/was-killed" ]; do
  tries=$((tries + 1))
  [ "$tries" -lt 120 ] || { echo 'FAILED: task 3 did not run'; cat "$work"/*.out "$work/slurmctld.log"; exit 1; }
  sleep 1
done
[ -e "$work/array/shard-000003.jsonl.journal" ] || { echo 'FAILED: the killed task left no journal'; exit 1; }
scontrol requeue "${job}_3"
echo 'task 3 was killed with a journal, and requeued'
tries=0
while [ -n "$(squeue -h -j "$job,$merge" 2> /dev/null)" ]; do
  tries=$((tries + 1))
  [ "$tries" -lt 200 ] || { echo 'FAILED: the jobs do not end'; squeue; cat "$work"/*.out; exit 1; }
  sleep 1
done
[ -e "$work/array/verdicts.jsonl" ] || { echo 'FAILED: nothing was merged'; cat "$work"/*.out; exit 1; }
compare array

# What one does whose node had lost a shard: it alone, by its number. Without it the merge says which one is missing.
rm "$work"/array/shard-000002.* "$work/array/verdicts.jsonl"
code=0
"$program" batch --merge "$work"/array/shard-*.summary.json > /dev/null 2> "$work/missing" || code=$?
[ "$code" -eq 3 ] && grep -q 'among the summaries: 2' "$work/missing" || { echo 'FAILED: shard 2 is not missed'; exit 1; }
job=$(sbatch --parsable --array=2 --output="$work/%A_%a.out" "$root/docs/scale/batch-shard.slurm" \
  "$work/readings.jsonl" "$work/array" 6 $options)
merge=$(sbatch --parsable --dependency="afterok:$job" --output="$work/merge2.out" "$root/docs/scale/batch-merge.slurm" "$work/array" 6)
tries=0
while [ -n "$(squeue -h -j "$job,$merge" 2> /dev/null)" ]; do
  tries=$((tries + 1))
  [ "$tries" -lt 200 ] || { echo 'FAILED: the job that was sent again does not end'; squeue; exit 1; }
  sleep 1
done
[ -e "$work/array/verdicts.jsonl" ] || { echo 'FAILED: nothing was merged again'; cat "$work"/*.out; exit 1; }
compare array
