import type { Highs } from 'highs';
import { sameCost, type LinearProgram } from './program.ts';

/** What the solver found. */
export interface Solution {
  /** `limited`: it gave up at the limit of nodes, or on its own; `columns` may be there all the same. */
  readonly state: 'optimal' | 'infeasible' | 'limited';
  /** Null: none was found. */
  readonly columns: Float64Array | null;
  /** No solution costs less, in the program's unit; -Infinity: nothing is known. */
  readonly bound: number;
  /** Nodes of the search that were looked at. */
  readonly nodes: number;
}

/** @param nodes the most that may be looked at: the limit of the effort, the same on every machine */
export type Solver = (program: LinearProgram, nodes: number) => Solution;

const options = {
  output_flag: false,
  log_to_console: false,
  random_seed: 1,
  mip_allow_restart: false,
  // Costs are whole: less than one apart is the same.
  mip_rel_gap: 0,
  mip_abs_gap: sameCost,
};

/** HiGHS, loaded anew: what it did before can not change what it finds. It prints nothing. */
export const loadSolver = async (): Promise<Solver> => {
  // Its types are of the CommonJS build; imported like this, what is there is the loader itself.
  const { default: load } = (await import('highs')) as unknown as { default: () => Promise<Highs> };
  const highs = await load();
  const { modelStatus, solutionStatus } = highs.constants;
  return (program, nodes) =>
    highs.withModel((model): Solution => {
      model.options.set({ ...options, mip_max_nodes: nodes });
      model.passModel(asModel(program));
      model.run();
      const status = model.getModelStatus();
      // Both are of one kind here: every column has a lowest cost.
      if (status === modelStatus.infeasible || status === modelStatus.unboundedOrInfeasible) {
        return { state: 'infeasible', columns: null, bound: Infinity, nodes: 0 };
      }
      const isFound = model.info.get('primal_solution_status') === solutionStatus.feasible;
      const bound = Number(model.info.get('mip_dual_bound'));
      return {
        state: status === modelStatus.optimal && isFound ? 'optimal' : 'limited',
        columns: isFound ? model.getSolution().colValue : null,
        bound: Number.isFinite(bound) ? bound : -Infinity,
        nodes: Math.max(0, Number(model.info.get('mip_node_count'))),
      };
    });
};

const asModel = ({ whole, others, costs, rows }: LinearProgram) => {
  const columns = whole + others;
  const upper = new Float64Array(columns).fill(Infinity);
  const integrality = new Int32Array(columns);
  upper.fill(1);
  integrality.fill(1, 0, whole);
  const starts = [0];
  for (const { terms } of rows) starts.push(starts.at(-1)! + terms.length);
  return {
    numCols: columns,
    numRows: rows.length,
    colCost: costs,
    colLower: new Float64Array(columns),
    colUpper: upper,
    rowLower: rows.map(({ low }) => low),
    rowUpper: rows.map(({ high }) => high),
    matrix: {
      format: 'csr' as const,
      numRows: rows.length,
      numCols: columns,
      starts,
      indices: rows.flatMap(({ terms }) => terms.map(([column]) => column)),
      values: rows.flatMap(({ terms }) => terms.map(([, value]) => value)),
    },
    integrality,
  };
};
